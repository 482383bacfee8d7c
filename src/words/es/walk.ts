import type { NameNode, WalkWords } from '../words.js';
import { esComponent as component, ES_HEAD_END } from './places.js';

const end = (trunk: string, node: string | null, nameNode: NameNode) =>
  node === null ? ES_HEAD_END : nameNode(trunk, node);

export const ES_WALK: WalkWords = {
  tryFunction: {
    lamp: (room) => `Mirar el piloto de ${room}`,
    announcement: (room) => `Escuchar un aviso en ${room}`,
    bell: (room) => `Escuchar el timbre en ${room}`,
    music: (room) => `Escuchar música en ${room}`,
    'room-call': (room) => `Hacer que llamen a ${room}`,
    talkback: (room) => `Contestar desde ${room}`,
  },
  lampSeen: ['está encendido', 'brilla poco', 'está apagado'],
  heard: ['se oye', 'se oye poco', 'no se oye'],
  measureOutput: (trunk) => `Medir en la central la salida de la línea ${trunk}`,
  measureArrival: (room) => `Medir lo que llega a la ENTRADA de ${room}`,
  allThere: 'está todo',
  somethingMissing: 'falta algo',
  disconnect: (room) => `Desconectar todo lo que sigue después de ${room} y ver si la línea vuelve`,
  liftOff: (room) => `Soltar el cable en la ENTRADA de ${room} y ver si la línea vuelve`,
  comesBack: 'vuelve',
  doesNotComeBack: 'no vuelve',
  open: (part, place, nameNode) => {
    switch (place.kind) {
      case 'head-end':
        return 'Abrir la central';
      case 'port':
        return `Mirar el fusible y los bornes de salida de la línea ${place.trunk}`;
      case 'station':
        return `Revisar el aparato de ${nameNode(place.trunk, place.node)}`;
      case 'span': {
        if (part !== 'cable') return `Abrir los ${component(part, place, nameNode)}`;
        const to = nameNode(place.trunk, place.to);
        return `Seguir el cable desde ${end(place.trunk, place.from, nameNode)} hasta ${to}`;
      }
    }
  },
  remake: (part, place, nameNode) => {
    switch (place.kind) {
      case 'head-end':
        return 'Repasar la central otra vez, módulo por módulo';
      case 'port':
        return `Rehacer el fusible y los bornes de salida de la línea ${place.trunk}`;
      case 'station':
        return `Cambiar el aparato de ${nameNode(place.trunk, place.node)}`;
      case 'span': {
        if (part !== 'cable') return `Rehacer los ${component(part, place, nameNode)}`;
        const to = nameNode(place.trunk, place.to);
        return `Tender un cable de prueba desde ${end(place.trunk, place.from, nameNode)} hasta ${to}`;
      }
    }
  },
  allWorks: 'todo funciona',
  stillFails: 'algo sigue fallando',
  atFault: 'averiado',
  sound: 'en buen estado',
  soundAnd: (seen) => `en buen estado, y ${seen}`,
  from: (where, minutes) =>
    `Desde ${where}, unos ${minutes} min hasta que todo vuelva a funcionar.`,
  nothingSuspect: 'No hay nada sospechoso.',
  step: (label, minutes) => `${label} (${minutes} min).`,
  ending: (seen, chance, next) => `Si ${seen} (${chance}): ${next}`,
  otherwise: (chance, next) => `Si no (${chance}): ${next}`,
  mendIt: 'está averiado, repararlo',
  mendItAndIf: 'está averiado, repararlo; si algo sigue fallando',
  everythingWorks: 'Todo funciona.',
  askAgain: 'Preguntar aquí de nuevo.',
  cautions: [
    'Aísle y compruebe que no hay tensión antes de abrir una central o una conexión.',
    'Las líneas de altavoces pueden llevar tensiones peligrosas; las partes de red eléctrica son para personal autorizado.',
    'Cuidado con las escaleras y el trabajo en altura.',
    'Las salas están en uso y puede haber niños: vaya acompañado y acuerde las horas.',
    'Infórmese sobre amianto y sellados contra incendios antes de taladrar.',
    'Las normas locales y las del propio lugar van primero. Este plan aconseja; decide quien está allí.',
  ],
  emergencyCaution:
    'Este sistema sirve para evacuación o llamadas de emergencia: avise a la persona responsable, ponga en marcha el sustituto acordado y anote las horas fuera de servicio.',
};
