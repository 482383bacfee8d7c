import type { EN_QUARTER } from '../en/quarter.js';

export const FR_QUARTER: typeof EN_QUARTER = {
  title: 'Le trimestre',
  from: (day) => `Treize semaines à partir du ${day}`,
  otherStart: 'Un autre premier jour',
  what: 'Les visites que les contrats promettent sont mises sur des jours et des techniciens. Personne n’est envoyé avant que vous ne les réserviez.',
  owed: (count) =>
    count === 0
      ? 'Toutes les visites promises dans ces semaines sont réservées.'
      : count === 1
        ? '1 visite promise n’est pas encore réservée.'
        : `${count} visites promises ne sont pas encore réservées.`,
  owedWhere: 'Chacune est à son meilleur jour, tant qu’elle n’est pas planifiée.',
  cutOff: 'Il y a plus qu’un plan ne prend : ce qui commence plus tard est resté dehors.',
  make: 'Planifier ces semaines',
  makeAnew: 'Les replanifier',
  firstOne: 'Recherche d’un premier plan…',
  better: (cost, bound) =>
    `Un premier plan est là : il pèse ${cost}, et aucun ne peut peser moins de ${bound}. Recherche d’un meilleur…`,
  atMost: (seconds) => `${seconds} ; cela prend 10 s au plus, à peu près.`,
  stop: 'Garder le premier',
  placed: (placed, left) =>
    left === 0
      ? `${placed} visites placées, aucune de reste.`
      : `${placed} visites placées, ${left} de reste.`,
  isFirst: 'C’est le premier plan trouvé : on n’en a pas attendu de meilleur.',
  weighs:
    'On additionne les minutes de route, 2 par jour d’écart au meilleur jour d’une visite, et davantage pour ce qui reste.',
  made: (at) => `Fait le ${at}.`,
  moved: (count) =>
    count === 1 ? '1 visite a changé de place.' : `${count} visites ont changé de place.`,
  drawnBy: 'Dessiné par',
  byTechnician: 'technicien',
  byArea: 'secteur',
  weeks: 'Semaine par semaine',
  weekOf: (day) => `Semaine du ${day}`,
  notPlanned: 'Pas encore planifié',
  nothing: 'rien',
  near: (site, others) =>
    others === 0
      ? site
      : others === 1
        ? `${site} et 1 site voisin`
        : `${site} et ${others} sites voisins`,
  oneWay: (visits) => `un trajet pour ${visits}`,
  was: (place) => `avant : ${place}`,
  legendBest: 'meilleur jour',
  legendHere: 'où elle est',
  pull: (days) =>
    days === 0
      ? 'à son meilleur jour'
      : days === 1
        ? '1 jour après le meilleur'
        : days === -1
          ? '1 jour avant le meilleur'
          : days > 0
            ? `${days} jours après le meilleur`
            : `${-days} jours avant le meilleur`,
  late: 'en retard',
  wanted: (name) => `comme ${name} le veut`,
  asTable: 'La même chose en tableau',
  csv: 'Télécharger en CSV',
  day: 'Jour',
  who: 'Qui',
  where: 'Où',
  best: 'Meilleur jour',
  away: 'Jours d’écart',
  visitOf: (ordinal, year) => `Visite ${ordinal} de l’année ${year} du contrat`,
  contract: 'Son contrat',
  toDay: 'Ce jour-là',
  close: 'Fermer',
  why: 'Pourquoi elle est ici',
  onBest: 'C’est son meilleur jour.',
  bestGone: (day) => `Son meilleur jour, ${day}, est passé : le plus tôt sera le mieux.`,
  bestIs: (day) => `Son meilleur jour est ${day}.`,
  bestWeighs: (minutes) =>
    minutes === 0
      ? 'Ce jour-là pèserait autant.'
      : minutes > 0
        ? `Ce jour-là pèserait ${minutes} minutes de plus.`
        : `Ce jour-là pèserait ${-minutes} minutes de moins.`,
  bestNot: 'Elle ne peut pas se faire alors, à cause de :',
  oneWayWith: (sites) => `Un seul trajet suffit pour elle et ${sites}.`,
  nextBest: (day, name, minutes) =>
    minutes === 0
      ? `Ce pourrait aussi être ${day} avec ${name} : cela pèserait autant.`
      : minutes > 0
        ? `Ensuite vient ${day} avec ${name} : ${minutes} minutes de plus.`
        : `Mieux vaudrait ${day} avec ${name} : ${-minutes} minutes de moins.`,
  nothingElse: 'Aucun autre jour et personne d’autre ne convient.',
  left: 'Ce qui n’a pu être placé, et pourquoi',
  allPlaced: 'Tout est placé.',
  anyOne: 'Il suffit que l’une de ces lignes cède :',
  whyLeft: {
    'no-day': 'Aucun jour ne lui est ouvert dans ces semaines.',
    'nobody-there': 'Personne ne travaille assez longtemps les jours qui lui sont ouverts.',
    'no-room': 'Il ne reste pas de temps à côté de ce qui est placé.',
    'weighs-less': 'Elle pourrait être placée, mais le trajet pèse plus que de la laisser.',
    wishes: 'Ce qu’on en veut ne peut pas tout se faire.',
    'said-so': 'Elle a été laissée dehors exprès.',
  },
  constraint: {
    room: 'le reste de ce qui est prévu alors',
    notOn: 'les jours que vous avez écartés',
    on: 'le jour que vous avez nommé',
    notBy: 'qui vous avez écarté',
    pinnedTo: 'qui vous avez nommé',
    skills: 'ce qu’il faut savoir faire',
    hours: 'les heures de travail de chacun',
    'contract-days': 'les jours que le contrat laisse ouverts',
  },
  want: 'Ce que vous en voulez',
  wants: {
    best: 'Comme le plan le trouve le mieux',
    stay: (place) => `Elle reste ici : ${place}`,
    move: 'Le jour, ou avec qui je dis',
    'not-then': (day) => `Pas le ${day}`,
    'not-who': (name) => `Pas avec ${name}`,
    left: 'Pas dans ce plan',
  },
  wantLabel: 'Où elle est',
  toOn: 'Ce jour',
  toOnHint: 'Vide : le jour qui convient le mieux.',
  toWho: 'Avec',
  anybody: 'Qui convient le mieux',
  ruledOut: (what) => `Écarté jusqu’ici : ${what}.`,
  allowAgain: 'Le permettre à nouveau',
  skills: 'Il faut quelqu’un qui sache',
  reason: 'Pourquoi',
  noReason: 'Dites pourquoi, pour qui planifiera après vous.',
  noPlace: 'Nommez un jour, ou qui la fait.',
  because: (name, at, reason) => `${name} l’a voulu ainsi le ${at}, parce que : ${reason}`,
  wantedMeanwhile:
    'Quelqu’un d’autre a voulu entre-temps quelque chose de cette visite : c’est montré plus haut. Gardez le vôtre encore une fois pour le mettre à sa place.',
  keep: 'Le garder, et replanifier',
  keeping: 'Planification…',
  book: (count) => (count === 1 ? 'Réserver 1 visite' : `Réserver les ${count} visites`),
  bookWhat: 'Elles sont réservées toutes ensemble, ou aucune.',
  booking: 'Réservation…',
  bookAll: 'C’est bien voulu : les réserver',
  atVisit: (site, day, reason) => `${site}, le ${day} : ${reason}`,
  booked: (count) => (count === 1 ? '1 visite est réservée.' : `${count} visites sont réservées.`),
  forget: 'Oublier ce plan',
};
