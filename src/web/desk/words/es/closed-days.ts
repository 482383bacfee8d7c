import type { EN_CLOSED_DAYS } from '../en/closed-days.js';

export const ES_CLOSED_DAYS: typeof EN_CLOSED_DAYS = {
  title: 'Días cerrados',
  hint: 'Vacaciones escolares, exámenes, días en que la fábrica cierra: los contratos nombran los calendarios cuyos días no cuentan, o en los que no se hacen visitas.',
  none: 'Todavía no hay ningún calendario.',
  closes: (times, days) =>
    `${times === 1 ? '1 periodo' : `${times} periodos`}, ${days === 1 ? '1 día' : `${days} días`}`,
  closesNothing: 'No cierra ningún día.',
  leftOut: (count) =>
    count === 1
      ? 'Un evento con hora, o anulado, no cierra nada.'
      : `${count} eventos con hora, o anulados, no cierran nada.`,
  first: 'Primer día',
  last: 'Último día',
  what: 'Qué es',
  make: 'Añadir un calendario',
  name: 'Cómo se llama, por ejemplo «Vacaciones escolares, Larkfield»',
  byHand: 'Añadir días a mano',
  addDays: 'Añadir estos días',
  noFirst: 'Indique el primer día.',
  lastBefore: 'El último día es anterior al primero.',
  takeOut: 'Quitar',
  fromText: 'Tomarlos de un texto iCalendar',
  fromTextHint: 'Sus días sustituyen a los de abajo; nada se guarda antes de que usted lo guarde.',
  file: 'Un archivo (.ics)',
  text: 'O pegue el texto',
  noText: 'Elija un archivo o pegue el texto.',
  see: 'Ver qué cierra',
  reading: 'Leyendo…',
  read: 'Se leyó el texto.',
  line: 'Línea',
  reason: 'Qué está mal',
  wrong: (count) =>
    count === 1 ? 'Hay un error en el texto.' : `Hay ${count} errores en el texto.`,
  willClose: 'Qué cierra',
  keep: 'Guardarlo',
  kept: (name) => `${name} está guardado.`,
  change: 'Cambiar',
  drop: 'Olvidar lo que escribí',
  changed:
    'Otra persona lo cambió mientras tanto: sus cambios están aquí y no se han guardado. Guárdelo otra vez para poner los suyos.',
  remove: 'Eliminar…',
  removeNow: 'Eliminarlo',
  removed: (name) => `${name} se ha eliminado.`,
};
