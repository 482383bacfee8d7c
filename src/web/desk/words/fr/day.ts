import type { EN_DAY } from '../en/day.js';

export const FR_DAY: typeof EN_DAY = {
  title: 'Jours',
  dayBefore: 'Le jour d’avant',
  dayAfter: 'Le jour d’après',
  whichDay: 'Un autre jour',
  none: 'Aucun plan n’a encore été fait de ce jour.',
  noneWhat:
    'Un plan dit qui va où et dans quel ordre. Il n’envoie personne avant que vous ne l’acceptiez.',
  visits: 'Visites de ce jour',
  noVisits: 'Aucune visite n’est prévue ce jour.',
  nobodyNamed: 'personne de nommé',
  someone: 'un autre technicien',
  make: 'Faire un plan',
  makeAnew: 'Le refaire',
  making: 'Planification…',
  accept: 'L’accepter : nommer qui y va',
  made: (at) => `Fait le ${at}.`,
  accepted: (at) => `Accepté le ${at} : chacun est nommé.`,
  road: (minutes, jobs, people) =>
    `${jobs === 1 ? '1 travail' : `${jobs} travaux`} de ${people === 1 ? '1 technicien' : `${people} techniciens`}, ${minutes} minutes de route.`,
  proven: (cost) =>
    `Aucun plan n’est meilleur : celui-ci pèse ${cost}, et aucun ne peut peser moins.`,
  gap: (cost, bound, percent) =>
    `Il pèse ${cost} ; aucun plan ne peut peser moins de ${bound}. Un meilleur le serait de ${percent} au plus.`,
  weighs:
    'On additionne les minutes de route, de salles qui attendent, de retard et de ce qui reste.',
  cutOff:
    'Il y avait plus à faire qu’un plan ne prend : les tickets les plus récents sont restés dehors.',
  notThere: 'Absents ce jour',
  lanes: 'Qui va où',
  asTable: 'La même chose en tableau',
  legendTravel: 'sur la route',
  legendHours: 'heures de travail',
  nothingPlaced: 'Rien n’est donné à personne.',
  who: 'Qui',
  order: 'Ordre',
  arrives: 'Là à',
  begins: 'De',
  ends: 'À',
  where: 'Où',
  travel: 'Sur la route',
  minutes: (minutes) => `${minutes} min.`,
  spare: 'Reste de ce qui fut promis',
  late: (minutes) => `${minutes} min de retard`,
  noPromise: 'rien de promis',
  starts: (begins, latest) =>
    begins === latest
      ? `Commence ${begins}.`
      : `Commence ${begins}, avant ${latest} neuf fois sur dix.`,
  kept: (chance) => `Ce qui fut promis est tenu avec ${chance}.`,
  undone: 'Ce qui n’a pu être placé, et pourquoi',
  allPlaced: 'Tout est placé.',
  ticket: (number) => `Ticket n° ${number}`,
  visit: 'Une visite',
  placeUnknown: 'Personne n’a noté où se trouve ce site : le chemin est une supposition.',
  lasts: {
    said: (minutes) => `${minutes} minutes, comme quelqu’un l’a dit`,
    agreed: (minutes) => `${minutes} minutes, comme convenu`,
    walk: (minutes) => `${minutes} minutes, ce que le parcours sur place devrait prendre`,
    usual: (minutes) => `${minutes} minutes, comme d’habitude`,
  },
  why: 'Pourquoi il est ici',
  instead: (name, minutes) =>
    minutes === 0
      ? `${name} pourrait y aller aussi : cela pèserait autant.`
      : `${name} à la place pèserait ${Math.abs(minutes)} minutes de route ${minutes < 0 ? 'de moins' : 'de plus'}.`,
  nobodyElse: 'Personne d’autre ne peut le faire ce jour.',
  partsInVan: (parts) => `Dans la camionnette : ${parts}.`,
  partsToLoad: (parts) => `Pas dans la camionnette, à charger avant de partir : ${parts}.`,
  partsToTake: (parts) => `À emporter ; personne n’a dit ce que porte la camionnette : ${parts}.`,
  partNeeded: (name, chance) => `${name} (nécessaire avec ${chance})`,
  secondTrip: (chance) =>
    `Avec la camionnette telle qu’elle est, un second trajet pour une pièce a ${chance}.`,
  insteadTrip: (name, chance) => `Avec la camionnette de ${name}, il a ${chance}.`,
  obstacle: {
    'pinned-to-another': () => 'il est réservé à quelqu’un d’autre',
    'ruled-out': () => 'a été écarté',
    skills: (lacking) => `ne sait pas faire : ${lacking}`,
    'day-or-window': () => 'cela n’entre pas dans ce jour ou ces heures',
    'no-room': () => 'il ne reste pas de temps à côté de ce qui est placé',
    price: (minutes) =>
      `pourrait, pour ${minutes} minutes de route de plus ; le laisser pèse moins`,
  },
  want: 'Ce que vous en voulez',
  asBest: 'Qui convient le mieux au plan',
  pin: (name) => `${name} le fait`,
  ruleOut: (name) => `${name} ne le fait pas`,
  reason: 'Pourquoi',
  noReason: 'Dites pourquoi, pour qui planifiera après vous.',
  keep: 'Le garder, et replanifier',
  keeping: 'Planification…',
  close: 'Fermer',
};
