import type { EN_WORK_TIMES } from '../en/work-times.js';

export const ES_WORK_TIMES: typeof EN_WORK_TIMES = {
  title: 'Cuánto dura el trabajo',
  hint: 'Los planes de un día y el paso siguiente en la instalación van por estos minutos.',
  pace: (percent, visits) =>
    visits === 1
      ? `Aprendido de 1 visita: el trabajo dura ${percent} de lo habitual.`
      : `Aprendido de ${visits} visitas: el trabajo dura ${percent} de lo habitual.`,
  paceHint:
    'Cuentan las salidas en las que se encontró o arregló algo. Pocas lo mueven poco; muchas, del todo.',
  nothingLearned:
    'Todavía no se ha aprendido nada: no ha terminado ninguna salida en la que se encontrara o arreglara algo.',
  groups: {
    way: 'Llegar',
    look: 'Mirar y medir',
    open: 'Abrir',
    mend: 'Arreglar y probar',
  },
  names: {
    walkHundredMetres: 'Andar cien metros',
    climbFloor: 'Subir un piso',
    enterHeadEnd: 'Entrar a la central',
    enterRoom: 'Entrar a un aula',
    reachJunctionBox: 'Llegar a una caja de empalme sobre el techo',
    waitForLesson: 'Esperar a que se pueda molestar en un aula',
    setUpLadder: 'Montar una escalera',
    isolateAndProveDead: 'Cortar la corriente y comprobarlo',
    lookAtLamp: 'Mirar una lámpara',
    listen: 'Escuchar en un aula',
    measure: 'Medir',
    disconnect: 'Desconectar parte de una línea y volver a conectarla',
    lookAtFuse: 'Mirar un fusible',
    openHeadEnd: 'Abrir la central',
    openTerminals: 'Abrir bornes',
    openCableRun: 'Llegar a un tramo de cable',
    followTenMetres: 'Seguir diez metros de cable',
    openStation: 'Abrir el aparato de un aula',
    mendHeadEnd: 'Arreglar la central',
    mendFuse: 'Cambiar un fusible',
    mendTerminals: 'Rehacer bornes',
    mendCable: 'Arreglar un cable',
    mendStation: 'Arreglar o cambiar el aparato de un aula',
    walkTestRoom: 'Probar un aula cuando todo está arreglado',
    secondTrip: 'Ir a por una pieza y volver',
  },
  empty: 'Minutos. Un campo vacío va por lo aprendido, o si no por lo habitual.',
  goesBy: {
    own: (usual) => `como usted dice; lo habitual son ${usual} min`,
    learned: (minutes, usual, visits) =>
      visits === 1
        ? `${minutes} min, aprendido de 1 visita; lo habitual son ${usual} min`
        : `${minutes} min, aprendido de ${visits} visitas; lo habitual son ${usual} min`,
    usual: (usual) => `${usual} min, como es habitual`,
  },
  said: (minutes) => `${minutes} min, como dice la empresa`,
  notOwner: 'Los cambia un titular.',
  number: 'tienen que ser minutos, por ejemplo 2.5',
};
