import type { EN_QUARTER } from '../en/quarter.js';

export const ES_QUARTER: typeof EN_QUARTER = {
  title: 'El trimestre',
  from: (day) => `Trece semanas desde el ${day}`,
  otherStart: 'Otro primer día',
  what: 'Las visitas que prometen los contratos se ponen en días y técnicos. No se envía a nadie hasta que usted las reserva.',
  owed: (count) =>
    count === 0
      ? 'Están reservadas todas las visitas prometidas en estas semanas.'
      : count === 1
        ? 'Falta reservar 1 visita prometida.'
        : `Faltan por reservar ${count} visitas prometidas.`,
  owedWhere: 'Cada una está en su mejor día, hasta que se planifique.',
  cutOff: 'Hay más de lo que cabe en un plan: quedó fuera lo que empieza más tarde.',
  make: 'Planificar estas semanas',
  makeAnew: 'Planificarlas de nuevo',
  firstOne: 'Buscando un primer plan…',
  better: (cost, bound) =>
    `Ya hay un primer plan: pesa ${cost}, y ninguno puede pesar menos de ${bound}. Buscando uno mejor…`,
  atMost: (seconds) => `${seconds}; tarda unos 10 s como mucho.`,
  stop: 'Quedarse con el primero',
  placed: (placed, left) =>
    left === 0
      ? `${placed} visitas colocadas, ninguna fuera.`
      : `${placed} visitas colocadas, ${left} fuera.`,
  isFirst: 'Es el primer plan que se encontró: no se esperó a uno mejor.',
  weighs:
    'Se suman los minutos de camino, 2 por cada día que una visita se aparta del mejor, y más por lo que queda fuera.',
  made: (at) => `Hecho ${at}.`,
  moved: (count) =>
    count === 1 ? '1 visita cambió de sitio.' : `${count} visitas cambiaron de sitio.`,
  drawnBy: 'Dibujado por',
  byTechnician: 'técnico',
  byArea: 'zona',
  weeks: 'Semana a semana',
  weekOf: (day) => `Semana del ${day}`,
  notPlanned: 'Aún sin planificar',
  nothing: 'nada',
  near: (site, others) =>
    others === 0
      ? site
      : others === 1
        ? `${site} y 1 instalación cercana`
        : `${site} y ${others} instalaciones cercanas`,
  oneWay: (visits) => `un camino para ${visits}`,
  was: (place) => `antes: ${place}`,
  legendBest: 'mejor día',
  legendHere: 'donde está',
  pull: (days) =>
    days === 0
      ? 'en su mejor día'
      : days === 1
        ? '1 día después del mejor'
        : days === -1
          ? '1 día antes del mejor'
          : days > 0
            ? `${days} días después del mejor`
            : `${-days} días antes del mejor`,
  late: 'atrasada',
  wanted: (name) => `como quiere ${name}`,
  asTable: 'Lo mismo como tabla',
  csv: 'Descargar como CSV',
  day: 'Día',
  who: 'Quién',
  where: 'Dónde',
  best: 'Mejor día',
  away: 'Días de diferencia',
  visitOf: (ordinal, year) => `Visita ${ordinal} del año ${year} del contrato`,
  contract: 'Su contrato',
  toDay: 'Ese día',
  close: 'Cerrar',
  why: 'Por qué está aquí',
  onBest: 'Es su mejor día.',
  bestGone: (day) => `Su mejor día, ${day}, ya pasó: cuanto antes se haga, mejor.`,
  bestIs: (day) => `Su mejor día es ${day}.`,
  bestWeighs: (minutes) =>
    minutes === 0
      ? 'Ese día pesaría lo mismo.'
      : minutes > 0
        ? `Ese día pesaría ${minutes} minutos más.`
        : `Ese día pesaría ${-minutes} minutos menos.`,
  bestNot: 'No se puede hacer entonces, por:',
  oneWayWith: (sites) => `Un solo camino sirve para esta y para ${sites}.`,
  nextBest: (day, name, minutes) =>
    minutes === 0
      ? `También podría ser ${day} con ${name}: pesaría lo mismo.`
      : minutes > 0
        ? `Lo siguiente mejor es ${day} con ${name}: ${minutes} minutos más.`
        : `Mejor sería ${day} con ${name}: ${-minutes} minutos menos.`,
  nothingElse: 'No es posible ningún otro día ni nadie más.',
  left: 'Lo que no se pudo colocar, y por qué',
  allPlaced: 'Todo está colocado.',
  anyOne: 'Basta con que ceda una de estas líneas:',
  whyLeft: {
    'no-day': 'Ningún día de estas semanas está abierto para ella.',
    'nobody-there': 'Nadie trabaja bastante tiempo en los días que tiene abiertos.',
    'no-room': 'No queda tiempo junto a lo ya colocado.',
    'weighs-less': 'Se podría colocar, pero el camino pesa más que dejarla.',
    wishes: 'Lo que se quiere de ella no puede ser todo a la vez.',
    'said-so': 'Se dejó fuera a propósito.',
  },
  constraint: {
    room: 'lo demás que está previsto entonces',
    notOn: 'los días que usted descartó',
    on: 'el día que usted nombró',
    notBy: 'a quién descartó usted',
    pinnedTo: 'a quién nombró usted',
    skills: 'lo que hay que saber hacer',
    hours: 'las horas de trabajo de todos',
    'contract-days': 'los días que el contrato deja abiertos',
  },
  want: 'Qué quiere de ella',
  wants: {
    best: 'Como mejor le convenga al plan',
    stay: (place) => `Se queda aquí: ${place}`,
    move: 'El día, o con quien yo diga',
    'not-then': (day) => `No el ${day}`,
    'not-who': (name) => `No con ${name}`,
    left: 'No en este plan',
  },
  wantLabel: 'Dónde está',
  toOn: 'Ese día',
  toOnHint: 'Vacío: el día que convenga.',
  toWho: 'Con',
  anybody: 'Quien mejor convenga',
  ruledOut: (what) => `Descartado hasta ahora: ${what}.`,
  allowAgain: 'Volver a permitirlo',
  skills: 'Hace falta alguien que sepa',
  reason: 'Por qué',
  noReason: 'Diga por qué, para quien planifique después.',
  noPlace: 'Nombre un día, o quién la hace.',
  because: (name, at, reason) => `${name} lo quiso así el ${at}, porque: ${reason}`,
  wantedMeanwhile:
    'Otra persona ha querido entretanto algo de esta visita: se muestra arriba. Guarde lo suyo otra vez para ponerlo en su lugar.',
  keep: 'Guardarlo y planificar de nuevo',
  keeping: 'Planificando…',
  book: (count) => (count === 1 ? 'Reservar 1 visita' : `Reservar las ${count} visitas`),
  bookWhat: 'Se reservan todas juntas, o ninguna.',
  booking: 'Reservando…',
  bookAll: 'Es así a propósito: reservarlas',
  atVisit: (site, day, reason) => `${site}, el ${day}: ${reason}`,
  booked: (count) =>
    count === 1 ? '1 visita quedó reservada.' : `${count} visitas quedaron reservadas.`,
  forget: 'Olvidar este plan',
};
