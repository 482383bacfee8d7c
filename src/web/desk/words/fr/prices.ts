import type { EN_CORRECTION, EN_PRICES } from '../en/prices.js';

export const FR_CORRECTION: typeof EN_CORRECTION = {
  save: 'Enregistrer',
  saving: 'Enregistrement…',
  saved: 'C’est enregistré.',
  drop: 'Oublier ce que j’ai tapé',
  meanwhile:
    'Quelqu’un d’autre a changé ceci entre-temps. Ce que vous n’avez pas touché est maintenant comme il l’a laissé.',
  both: (fields) => `Changé des deux côtés : ${fields}. Cela reste comme vous l’avez tapé.`,
  saveAgain: 'Rien n’est encore enregistré : relisez et enregistrez de nouveau.',
};

export const FR_PRICES: typeof EN_PRICES = {
  title: 'Les prix de l’entreprise',
  hint: 'Ce que coûtent et devraient coûter les contrats se calcule avec ce que l’entreprise paie elle-même ; ce n’est pas ce que paient les clients.',
  notKeeper: 'Les prix sont vus des propriétaires et des responsables de contrats.',
  nothing: 'Aucun prix n’est encore noté : d’ici là, les coûts ne sont pas calculés.',
  of: {
    currency: 'Monnaie',
    hour: 'Une heure sur place',
    travelHour: 'Une heure de route',
    parts: 'Pièces',
  },
  currencyHint:
    'Trois lettres, comme EUR. Les contrats dans une autre monnaie sont calculés sans coûts.',
  partsHint: 'Nommées comme on les note en réparant ; les majuscules ne comptent pas.',
  part: (nth) => `Pièce ${nth}`,
  partName: 'Nom',
  partPrice: 'Prix à l’unité',
  add: 'Ajouter une pièce',
  remove: 'La retirer',
  amount: 'doit être un montant, comme 52,50',
};
