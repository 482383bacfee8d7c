import type { OfficeWords, PageWords, TicketStateName } from '../office-words.js';
import { ES_FORMATS as formats } from './formats.js';

const SOUND = { fails: 'no se oye', works: 'se oye', weak: 'se oye poco' };

export const ES_PAGES: PageWords = {
  language: 'es',
  ownName: 'Español',
  oneMoment: 'Un momento…',
  tryAgain: 'Intentar otra vez',
  send: 'Enviar',
  sending: 'Enviando…',
  functions: {
    announcement: { tried: 'Aviso hablado', ...SOUND },
    bell: { tried: 'Timbre', ...SOUND },
    music: { tried: 'Música', ...SOUND },
    lamp: {
      tried: 'Piloto del aparato',
      fails: 'apagado',
      works: 'encendido',
      weak: 'brilla poco',
    },
    'room-call': { tried: 'Llamada a una sola sala', ...SOUND },
    talkback: { tried: 'La sala habla con la oficina', ...SOUND },
  },
  unit: (code) => `Aparato ${code}`,
  line: (trunk) => `Línea ${trunk}`,
  floor: (floor) => (/^-?\d+$/.test(floor) ? `planta ${floor}` : floor),
  instant: formats.instant,
  pen: {
    label: 'Aquí, con un dedo o un lápiz (no es obligatorio)',
    box: (isDrawn) => (isDrawn ? 'Firmado aquí a mano' : 'Todavía no hay nada dibujado'),
    again: 'Dibujarla de nuevo',
  },
  movedMeanwhile: 'Mientras tanto cambió de estado, y esto ya no se puede hacer.',
  notReached:
    'No se pudo llegar al servicio. No se ha perdido nada de lo que escribió: inténtelo otra vez dentro de un momento.',
  notReady: 'Algo falló en el servicio. No se ha perdido nada de lo que escribió.',
  closedMeanwhile: 'Esto se cerró mientras tanto. Cargue la página de nuevo para ver cómo está.',
  wentWrong: 'Algo falló en el servicio.',
  nothingHere: 'Aquí no hay nada',
  nothingHereWhy:
    'Puede que la dirección tenga una errata, o que aquello de lo que trataba ya no exista.',
  failedNow: 'Ahora mismo no ha funcionado',
  maybeOld: (reason) => `Puede que esto no esté al día: ${reason}`,
};

const STATES: Readonly<Record<TicketStateName, string>> = {
  reported: 'La empresa lo tiene y decide qué viene ahora.',
  'to-visit': 'Vendrá alguien.',
  'at-work': 'Alguien está trabajando en ello.',
  bridged: 'Por ahora funciona; alguien volverá para repararlo del todo.',
  mended: 'Está reparado; falta probarlo en cada sala.',
  closed: 'Está cerrado.',
  merged: 'Se unió a otro aviso de avería.',
};

const fromOf = (next: { fromTime: string | null }) =>
  next.fromTime === null ? '' : ` desde las ${next.fromTime}`;

export const ES_OFFICE: OfficeWords = {
  title: (site) => `Avisar de salas en silencio: ${site}`,
  report: {
    heading: 'Avisar de salas en silencio',
    whatTried: '¿Qué probó?',
    whichRooms: '¿Qué salas?',
    rooms: 'Salas',
    touch: ({ fails, works, weak }) =>
      `Toque una sala una vez: ${fails}. Dos veces: ${works}. Tres veces: ${weak}. Otra vez más: sin decir. Las salas de las que sabe «${works}» ayudan tanto como las de «${fails}».`,
    notSaid: 'sin decir',
    yourName: 'Su nombre',
    count: ({ fails, works, weak }, words) =>
      [
        `${words.fails}: ${formats.figure(fails, 9)}`,
        `${words.works}: ${formats.figure(works, 9)}`,
        ...(weak > 0 ? [`${words.weak}: ${formats.figure(weak, 9)}`] : []),
      ].join('; '),
    everywhere: 'En todas partes',
    all: (mark) => `todo: ${mark}`,
    clear: 'borrar',
    oddities: {
      legend: '¿Había algo más raro?',
      humming: 'Zumba',
      crackling: 'Crepita',
      'wrong-time': 'Sonó a deshora',
    },
    note: 'Algo más (no es obligatorio)',
    urgent: 'No puede esperar',
    whyUrgent: 'Por qué no puede esperar',
    callBack: 'Un número para devolverle la llamada (no es obligatorio)',
    inWords: {
      label: '¿Qué salas, y qué no se oye en ellas?',
      hint: 'Nadie ha dibujado aún este lugar: dígalo con sus palabras.',
    },
    missing: {
      something: 'Falta algo.',
      tried: 'Diga, por favor, qué probó.',
      rooms: 'Toque, por favor, las salas que estaban en silencio.',
      name: 'Diga, por favor, quién es.',
      whyUrgent: 'Diga, por favor, por qué no puede esperar.',
      inWords: 'Diga, por favor, qué salas y qué no se oye en ellas.',
    },
    thanks: (numbers) =>
      `Gracias. ${formats.plural(numbers.length, { one: 'Su número de aviso es el', other: 'Sus números de aviso son el' })} ${formats.and(numbers.map(String))}.`,
    more: 'Avisar de más salas',
  },
  ring: (firm) => `O llame a ${firm}:`,
  nextVisit: (next) =>
    next === null
      ? 'Aún no hay visita fijada. En cuanto la empresa de servicio fije una, aquí estará el día.'
      : `Alguien vendrá el ${formats.day(next.on)}${fromOf(next)} (${next.kind === 'planned' ? 'visita prevista' : 'visita por avería'}).`,
  atWork: 'Alguien de la empresa de servicio está trabajando aquí ahora.',
  mayChange: 'El día puede cambiar si en otro sitio surge algo más urgente. Lo que vale está aquí.',
  ticket: {
    heading: (number) => `Aviso ${number}`,
    since: (instant) => `Desde el ${instant}.`,
    states: STATES,
    open: 'Qué puede comprobar usted',
    ofTicket: (number) => `para el aviso ${number}`,
    openHeading: 'Avisos abiertos',
    openCount: (count) => `Avisos abiertos: ${formats.figure(count, 9)}`,
    notWorking: (tried, rooms) => `${tried}, no funciona en: ${rooms.join(', ')}`,
    saidToWork: (tried, rooms) =>
      `${tried}, se dijo que vuelve a funcionar en: ${rooms.join(', ')}. El técnico lo probará allí.`,
  },
  check: {
    heading: 'Vale la pena mirar ahora',
    why: 'Cada una de estas cosas puede ahorrar una visita o acortarla.',
    lookOnly:
      'Solo mire y escuche. Por favor, no abra nada, no desenchufe nada, no se suba a nada y no interrumpa clases ni trabajo por ello. Lo que no pueda hacer fácilmente, déjelo para el técnico.',
    suggestion: (words, minutes) =>
      `${words.charAt(0).toLocaleUpperCase('es')}${words.slice(1)}. Lleva ${formats.plural(minutes, { one: 'cerca de un minuto', other: 'unos # minutos' })}.`,
    wasItSo: '¿Estaba ya así antes de empezar?',
    andNow: '¿Y ahora?',
    answers: { yes: 'sí', no: 'no', unknown: 'no sé decirlo' },
    noted: 'Gracias, queda anotado.',
  },
  sign: {
    heading: 'Trabajo por firmar',
    count: (count) => `Por firmar: ${formats.figure(count, 9)}`,
    visit: (day) => `Visita del ${formats.day(day)}`,
    nothingWritten: 'El técnico no escribió nada sobre el trabajo.',
    remark: 'Observación (no es obligatoria)',
    button: 'Firmar con mi nombre',
    signed: (day, name) => `Visita del ${formats.day(day)}: firmado como ${name}. Gracias.`,
  },
  emergency: {
    label: 'Llamadas de emergencia',
    heading: 'Este sistema lleva también llamadas de emergencia.',
    text: 'Si hay salas en silencio, avise ahora a la persona responsable de seguridad, ponga en marcha el sustituto acordado y anote las horas.',
  },
  over: {
    replaced: 'Este cartel fue sustituido',
    openLink: 'Abra, por favor, el enlace del cartel',
    notNow: 'Esta vez no funcionó',
    scanAgain:
      'Escanee otra vez el código del cartel, o abra su enlace. La sesión termina cuando la página no se usa durante una hora.',
  },
};
