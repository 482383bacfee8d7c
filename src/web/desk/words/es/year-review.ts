import type { EN_YEAR_REVIEW } from '../en/year-review.js';

export const ES_YEAR_REVIEW: typeof EN_YEAR_REVIEW = {
  yearOf: (year) => `Año ${year}`,
  asOf: (instant) => `Tal como estaba el ${instant}.`,
  paper: 'Todo para imprimir y firmar (PDF)',
  sheet: 'Todas sus cifras (CSV)',
  captions: {
    promisedVisits: 'Cómo está cada visita prometida',
    visits: 'Visitas que se hicieron',
    promises: 'Cómo cumplieron lo prometido los avisos del año',
    tickets: 'Avisos recibidos en el año, y qué se halló y se reparó',
    availability: 'Horas de sala de cada función, y cuántas se perdieron',
    reliability: 'Horas medias entre averías de cada instalación, con límites',
    advised: 'Piezas que fallan más que otras de su clase',
  },
  found: 'Hallado',
  mended: 'Reparado',
  failures: 'Averías',
  mtbfHours: 'Horas entre averías',
  lowHours: 'Límite inferior',
  highHours: 'Límite superior',
  noLimit: 'ninguno',
  part: 'Qué',
  chance: 'Falla el próximo año',
  chanceRenewed: 'Falla ya renovado',
  renewal: 'Renovarlo cuesta',
  paysBack: 'Se amortiza en años',
};
