import type { EN_YEAR_REVIEW } from '../en/year-review.js';

export const FR_YEAR_REVIEW: typeof EN_YEAR_REVIEW = {
  yearOf: (year) => `Année ${year}`,
  asOf: (instant) => `État au ${instant}.`,
  paper: 'Le tout à imprimer et à signer (PDF)',
  sheet: 'Tous ses chiffres (CSV)',
  captions: {
    promisedVisits: 'Où en est chaque visite promise',
    visits: 'Visites qui ont été faites',
    promises: 'Comment les tickets de l’année ont tenu ce qui était promis',
    tickets: 'Tickets signalés dans l’année, ce qui fut trouvé et réparé',
    availability: 'Heures-salle de chaque fonction, et combien furent perdues',
    reliability: 'Heures moyennes entre pannes de chaque site, avec limites',
    advised: 'Pièces qui tombent en panne plus que d’autres de leur sorte',
  },
  found: 'Trouvé',
  mended: 'Réparé',
  failures: 'Pannes',
  mtbfHours: 'Heures entre pannes',
  lowHours: 'Limite basse',
  highHours: 'Limite haute',
  noLimit: 'aucune',
  part: 'Quoi',
  chance: 'Panne l’an prochain',
  chanceRenewed: 'Panne une fois renouvelé',
  renewal: 'Le renouveler coûte',
  paysBack: 'Amorti en années',
};
