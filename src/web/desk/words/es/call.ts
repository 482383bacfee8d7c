import type { EN_CALL } from '../en/call.js';

export const ES_CALL: typeof EN_CALL = {
  title: 'Atender una llamada',
  which: '¿Qué instalación?',
  whichHint: 'Cualquier parte de su nombre, dirección, cliente o teléfono.',
  notAllSites: 'Hay más instalaciones de las que se buscan aquí.',
  found: (count) =>
    count === 0
      ? 'Ninguna instalación lo tiene.'
      : count === 1
        ? '1 encontrada'
        : `${count} encontradas`,
  tried: '¿Qué probaron?',
  touch: 'Toque un aula: en silencio, luego se oye, luego débil, luego no dicho.',
  touchKeys: 'Con teclas: flechas a lo largo del cable, s en silencio, h se oye, w débil.',
  caller: '¿Quién llama?',
  callBack: 'Un número para devolver la llamada (no es obligatorio)',
  whyUrgent: 'Por qué no puede esperar, si es así',
  inWords: '¿Qué salas, y qué no se oye en ellas?',
  noWords: 'Diga, por favor, qué salas y qué no se oye en ellas.',
  remark: 'Algo más que se haya dicho (no hace falta)',
  send: 'Enviar',
  sending: 'Enviando…',
  noTried: 'Diga qué probaron.',
  noRooms: 'Toque las aulas que estaban en silencio.',
  noCaller: 'Diga quién llama.',
  nothingDrawn: 'En esta instalación no hay nada dibujado todavía, así que no hay aulas que tocar.',
  otherSite: 'Otra instalación',
  taken: 'Está anotado',
  ticket: (number) => `Aviso ${number}`,
  joined: 'Se unió a lo que ya estaba abierto.',
  opened: 'Es un aviso nuevo.',
  askNow: 'Pregúnteles ahora, mientras están al teléfono',
  another: 'Atender otra llamada',
  count: (silent, heard, weak) => `${silent} en silencio, ${heard} se oyen, ${weak} débiles`,
};
