import { coveredHoursIn } from '../covered-hours.js';
import { minutesIn, moneyIn, spanIn } from '../review-figures.js';
import type { ReviewWords } from '../review-words.js';
import { ES_FORMATS as formats } from './formats.js';

const span = spanIn(formats, { hour: 'h', days: 'días' });

const TRENDS = {
  laplace: 'prueba de Laplace',
  logSum: 'prueba χ² de una ley de potencia',
  reverseArrangements: 'pares en orden inverso',
};

export const ES_REVIEW: ReviewWords = {
  language: 'es',
  formats,
  title: (contract) => `Informe: ${contract}`,
  period: (from, last) => `Del ${formats.day(from)} al ${formats.day(last)}`,
  coveredHours: coveredHoursIn({
    locale: 'es',
    and: formats.and,
    roundTheClock: 'Las horas cuentan las 24 horas, los siete días de la semana.',
    on: (hours) => `Las horas cuentan ${hours}.`,
    onDay: (day, from, until) => `${day} de ${from} a ${until}`,
    onDays: (first, last, from, until) => `de ${first} a ${last} de ${from} a ${until}`,
  }),
  page: (page, pages, asOf) => `Situación a ${asOf}. Página ${page} de ${pages}.`,
  headings: {
    promisedVisits: 'Visitas prometidas',
    visits: 'Visitas hechas',
    promises: 'Llegada y reparación frente a lo prometido',
    tickets: 'Cada aviso con su plazo',
    availability: 'Disponibilidad en horas cubiertas',
    reliability: 'Con qué frecuencia falla algo',
    advised: 'Lo que se aconseja ahora',
    signatures: 'Firmas',
  },
  columns: {
    site: 'Lugar',
    slot: 'Prometida para',
    standing: 'Estado',
    madeOn: 'Visita el',
    day: 'Día',
    technician: 'Quién',
    work: 'Qué se hizo',
    minutes: 'Minutos',
    signed: 'Firmado por',
    promise: 'Promesa',
    met: 'Cumplida',
    breached: 'Incumplida',
    open: 'Abierta',
    mean: 'Media, tiempo cubierto',
    function: 'Función',
    rooms: 'Salas',
    roomHours: 'Horas de sala',
    lost: 'Perdidas',
    available: 'Disponible',
  },
  standings: {
    done: 'hecha a tiempo',
    'done-late': 'hecha tarde',
    planned: 'planificada',
    due: 'toca ahora',
    late: 'pendiente',
    missed: 'no hecha',
    'to-come': 'por venir',
  },
  functions: {
    lamp: 'piloto',
    announcement: 'avisos',
    bell: 'timbre',
    music: 'música',
    'room-call': 'llamadas a una sala',
    talkback: 'respuesta desde la sala',
  },
  promises: { response: 'alguien en el lugar', restore: 'todo vuelve a funcionar' },
  promiseStates: {
    running: 'en curso',
    paused: 'en pausa',
    met: 'cumplida',
    breached: 'incumplida',
  },
  ticket: (number, site) => `Aviso ${number}, ${site}`,
  ticketsElsewhere: (count) =>
    formats.plural(count, {
      one: '# aviso más de estos lugares va por otro contrato o por ninguno.',
      other: '# avisos más de estos lugares van por otro contrato o por ninguno.',
    }),
  none: 'Ninguno.',
  found: (words) => `Se encontró: ${words}.`,
  nothingFound: 'No se encontró ninguna avería.',
  mended: (what, mending) =>
    `Reparado${mending === 'temporary' ? ' de forma provisional' : ''}: ${what}`,
  breachCause: (cause) => `Por qué no: ${cause}`,
  minutes: minutesIn('h', 'min'),
  money: moneyIn('es'),
  hours: (hours) => formats.figure(hours, 6),
  availabilityNote:
    'Salas por horas que cubre el contrato. Una función cuenta como perdida en una sala desde que se dijo que allí fallaba o se oía débil hasta que se volvió a oír o se reparó.',
  record: ({ failures, siteHours, since }) =>
    `${formats.plural(failures, { one: '# avería encontrada y reparada', other: '# averías encontradas y reparadas' })} en ${span(siteHours)} de todos los lugares juntos, desde el ${formats.day(since)}.`,
  mtbf: ({ mtbfHours, lowHours, highHours }, confidence) => {
    const sure = formats.percent(Math.round(100 * confidence));
    if (mtbfHours === null || highHours === null) {
      return `No consta ninguna avería: el tiempo medio entre averías de un lugar supera ${span(lowHours)} con ${sure}.`;
    }
    return `Tiempo medio entre averías de un lugar: ${span(mtbfHours)} (de ${span(lowHours)} a ${span(highHours)} con ${sure}).`;
  },
  posterior: ({ medianHours, lowHours, highHours }, from) =>
    `Con lo que ${from === 'firm' ? 'la empresa sabía antes' : 'se sabe de estos sistemas'}: ${span(medianHours)} (de ${span(lowHours)} a ${span(highHours)}).`,
  growth: (growth, mtbfHours) =>
    `Según una ley de potencia las averías se hacen ${growth >= 0 ? 'más raras' : 'más frecuentes'} (crecimiento ${formats.figure(growth, 2)}); al final del registro un lugar aguanta ${span(mtbfHours)}.`,
  trend: (name, pRarer) => {
    const towards = pRarer <= 0.5 ? 'más raras' : 'más frecuentes';
    const chance = formats.chance(Math.min(pRarer, 1 - pRarer));
    return `Tendencia, ${TRENDS[name]}: hacia ${towards}; sin tendencia alguna, una señal así de fuerte se da con ${chance}.`;
  },
  trendWarning: {
    few: 'Son pocos casos: solo se notaría una tendencia fuerte.',
    'too-few': 'Con menos de cuatro averías ninguna prueba distingue una tendencia.',
  },
  siteAvailable: (availability, hoursToRestore) =>
    `Con ${span(hoursToRestore)} hasta que todo vuelve a funcionar, un lugar está entero el ${formats.figure(100 * availability, 4)} % del tiempo.`,
  advised: ({ chance, chanceRenewed, cost, paysBackYears }) => {
    const chances = `falla el próximo año con ${formats.chance(chance)}, renovado con ${formats.chance(chanceRenewed)}`;
    const costs = cost === null ? '' : `; renovarlo en una visita planificada cuesta ${cost}`;
    const back =
      paysBackYears === null
        ? ''
        : `, lo que se recupera en ${formats.figure(paysBackYears, 2)} años`;
    return `${chances}${costs}${back}`;
  },
  unfinished: (number, site, dueOn) =>
    `Aviso ${number}, ${site}: reparado de forma provisional${dueOn === null ? '' : `, por reparar del todo antes del ${formats.day(dueOn)}`}.`,
  nothingAdvised: 'Ninguna unión falla más que otras de su clase.',
  signedBy: (name, at) => `${name}, ${at}`,
  sheet: {
    columns: { section: 'apartado', site: 'lugar', of: 'de', figure: 'cifra', value: 'valor' },
    sections: {
      promisedVisits: 'visitas prometidas',
      visits: 'visitas',
      tickets: 'avisos',
      clocks: 'plazos',
      parts: 'piezas',
      promises: 'promesas',
      availability: 'disponibilidad',
      reliability: 'fiabilidad',
      advised: 'consejos',
      unfinished: 'provisional',
    },
  },
  toSign: ['Por el cliente: nombre, día, firma', 'Por la empresa: nombre, día, firma'],
};
