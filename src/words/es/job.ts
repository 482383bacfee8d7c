import type { JobWords } from '../job-words.js';
import { ES_FORMATS as formats } from './formats.js';

const MARKS = { works: 'se oye', weak: 'se oye débil', fails: 'sin sonido' };

export const ES_JOB: JobWords = {
  language: 'es',
  title: (site, on) => `Hoja de trabajo: ${site}, ${formats.day(on)}`,
  page: (page, pages, madeAt) => `Hecha el ${madeAt}. Página ${page} de ${pages}.`,
  when: (from, until, technician) => {
    const time =
      from === null
        ? 'A lo largo del día'
        : `Desde las ${from}${until === null ? '' : ` hasta las ${until}`}`;
    return `${time}, ${technician ?? 'aún no se ha nombrado a nadie'}`;
  },
  headings: {
    safety: 'Antes de empezar',
    said: 'Lo que se dijo',
    plan: 'Qué hacer, paso a paso',
    checks: 'Lo que más aclara',
    parts: 'Piezas que llevar',
    lastVisits: 'Visitas anteriores',
  },
  ticket: (number) => `Aviso ${number}`,
  furtherSaid: (count) =>
    `${formats.plural(count, { one: 'Se dijo una cosa más, que está', other: 'Se dijeron # cosas más, que están' })} solo en el aviso.`,
  noPlace: 'Lo que se dijo se contradice: pregunte otra vez quién oyó qué.',
  trunk: (trunk) => `Línea ${trunk}, desde la central`,
  headEnd: 'central',
  goesOn: (node) => (node === null ? 'continúa' : `continúa desde ${node}`),
  notDrawn: (nodes) =>
    `${formats.plural(nodes, { one: 'Una sala o conexión más no está dibujada', other: '# salas y conexiones más no están dibujadas' })} aquí; el aviso lo muestra todo.`,
  node: (name, code, outcome, isLooked) => {
    const said = outcome === null ? '' : `, ${MARKS[outcome]}`;
    const named = name.includes(code) ? name : `${name} (${code})`;
    return `${named}${said}${isLooked ? ': mire antes de aquí primero' : ''}`;
  },
  metres: (metres) => `${formats.figure(metres, 4)} m`,
  part: ({ id, neededChance, isCarried, isInVan }) => {
    const take =
      isInVan === null ? ', llévela' : ', no está en la furgoneta: cárguela antes de salir';
    return `${id.replaceAll('-', ' ')}: hace falta con ${formats.chance(neededChance)}${isInVan === true ? ', está en la furgoneta' : isCarried ? take : ''}`;
  },
  secondTrip: (chance) => `Que aun así falte una pieza: ${formats.chance(chance)}.`,
  further: (numbers) => `Otros avisos de esta visita: ${numbers.join(', ')}.`,
  none: 'Ninguna.',
};
