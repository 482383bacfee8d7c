import { coveredHoursIn } from '../covered-hours.js';
import { minutesIn, moneyIn, spanIn } from '../review-figures.js';
import type { ReviewWords } from '../review-words.js';
import { FR_FORMATS as formats } from './formats.js';

const span = spanIn(formats, { hour: 'h', days: 'jours' });

const TRENDS = {
  laplace: 'test de Laplace',
  logSum: 'test χ² d’une loi de puissance',
  reverseArrangements: 'paires en ordre inverse',
};

export const FR_REVIEW: ReviewWords = {
  language: 'fr',
  formats,
  title: (contract) => `Bilan : ${contract}`,
  period: (from, last) => `Du ${formats.day(from)} au ${formats.day(last)}`,
  coveredHours: coveredHoursIn({
    locale: 'fr',
    and: formats.and,
    roundTheClock: 'Les heures comptent 24 heures sur 24, sept jours sur sept.',
    on: (hours) => `Les heures comptent ${hours}.`,
    onDay: (day, from, until) => `${day} de ${from} à ${until}`,
    onDays: (first, last, from, until) => `du ${first} au ${last} de ${from} à ${until}`,
  }),
  page: (page, pages, asOf) => `Situation au ${asOf}. Page ${page} sur ${pages}.`,
  headings: {
    promisedVisits: 'Visites promises',
    visits: 'Visites faites',
    promises: 'Arrivée et remise en service face à la promesse',
    tickets: 'Chaque dossier avec son délai',
    availability: 'Disponibilité en heures couvertes',
    reliability: 'Fréquence des pannes',
    advised: 'Ce qui est conseillé ensuite',
    signatures: 'Signatures',
  },
  columns: {
    site: 'Site',
    slot: 'Promise pour',
    standing: 'État',
    madeOn: 'Visite le',
    day: 'Jour',
    technician: 'Qui',
    work: 'Ce qui a été fait',
    minutes: 'Minutes',
    signed: 'Signé par',
    promise: 'Promesse',
    met: 'Tenue',
    breached: 'Non tenue',
    open: 'En cours',
    mean: 'Moyenne, temps couvert',
    function: 'Fonction',
    rooms: 'Salles',
    roomHours: 'Heures-salle',
    lost: 'Perdues',
    available: 'Disponible',
  },
  standings: {
    done: 'faite à temps',
    'done-late': 'faite en retard',
    planned: 'planifiée',
    due: 'à faire maintenant',
    late: 'due',
    missed: 'non faite',
    'to-come': 'à venir',
  },
  functions: {
    lamp: 'voyant',
    announcement: 'annonces',
    bell: 'sonnerie',
    music: 'musique',
    'room-call': 'appels à une seule salle',
    talkback: 'réponse depuis la salle',
  },
  promises: { response: 'quelqu’un sur place', restore: 'remise en service' },
  promiseStates: { running: 'en cours', paused: 'en pause', met: 'tenue', breached: 'non tenue' },
  ticket: (number, site) => `Dossier ${number}, ${site}`,
  ticketsElsewhere: (count) =>
    formats.plural(count, {
      one: '# autre dossier de ces sites relève d’un autre contrat ou d’aucun.',
      other: '# autres dossiers de ces sites relèvent d’un autre contrat ou d’aucun.',
    }),
  none: 'Aucun.',
  found: (words) => `Trouvé : ${words}.`,
  nothingFound: 'Aucune panne n’a été trouvée.',
  mended: (what, mending) => `Réparé${mending === 'temporary' ? ' provisoirement' : ''} : ${what}`,
  breachCause: (cause) => `Pourquoi non : ${cause}`,
  minutes: minutesIn('h', 'min'),
  money: moneyIn('fr'),
  hours: (hours) => formats.figure(hours, 6),
  availabilityNote:
    'Salles multipliées par les heures que couvre le contrat. Une fonction compte comme perdue dans une salle depuis qu’on y a signalé une panne ou un son faible jusqu’à ce qu’on l’entende à nouveau ou qu’elle soit réparée.',
  record: ({ failures, siteHours, since }) =>
    `${formats.plural(failures, { one: '# panne trouvée et réparée', other: '# pannes trouvées et réparées' })} en ${span(siteHours)} de tous les sites ensemble, depuis le ${formats.day(since)}.`,
  mtbf: ({ mtbfHours, lowHours, highHours }, confidence) => {
    const sure = formats.percent(Math.round(100 * confidence));
    if (mtbfHours === null || highHours === null) {
      return `Aucune panne n’est connue : le temps moyen entre pannes d’un site dépasse ${span(lowHours)} avec ${sure}.`;
    }
    return `Temps moyen entre pannes d’un site : ${span(mtbfHours)} (de ${span(lowHours)} à ${span(highHours)} avec ${sure}).`;
  },
  posterior: ({ medianHours, lowHours, highHours }, from) =>
    `Avec ce que ${from === 'firm' ? 'l’entreprise savait avant' : 'l’on sait de tels systèmes'} : ${span(medianHours)} (de ${span(lowHours)} à ${span(highHours)}).`,
  growth: (growth, mtbfHours) =>
    `Selon une loi de puissance, les pannes deviennent ${growth >= 0 ? 'plus rares' : 'plus fréquentes'} (croissance ${formats.figure(growth, 2)}) ; à la fin du relevé, un site tient ${span(mtbfHours)}.`,
  trend: (name, pRarer) => {
    const towards = pRarer <= 0.5 ? 'plus rares' : 'plus fréquentes';
    const chance = formats.chance(Math.min(pRarer, 1 - pRarer));
    return `Tendance, ${TRENDS[name]} : vers ${towards} ; sans aucune tendance, un signe aussi fort arrive avec ${chance}.`;
  },
  trendWarning: {
    few: 'Ces cas sont peu nombreux : seule une forte tendance se verrait.',
    'too-few': 'Avec moins de quatre pannes, aucun test ne distingue une tendance.',
  },
  siteAvailable: (availability, hoursToRestore) =>
    `Avec ${span(hoursToRestore)} jusqu’à la remise en service, un site est entier ${formats.figure(100 * availability, 4)} % du temps.`,
  advised: ({ chance, chanceRenewed, cost, paysBackYears }) => {
    const chances = `tombe en panne l’an prochain avec ${formats.chance(chance)}, renouvelé avec ${formats.chance(chanceRenewed)}`;
    const costs = cost === null ? '' : ` ; le renouveler lors d’une visite planifiée coûte ${cost}`;
    const back =
      paysBackYears === null
        ? ''
        : `, ce qui est amorti en ${formats.figure(paysBackYears, 2)} ans`;
    return `${chances}${costs}${back}`;
  },
  unfinished: (number, site, dueOn) =>
    `Dossier ${number}, ${site} : réparé provisoirement${dueOn === null ? '' : `, à réparer pour de bon avant le ${formats.day(dueOn)}`}.`,
  nothingAdvised: 'Aucun raccord ne tombe en panne plus que d’autres de sa sorte.',
  signedBy: (name, at) => `${name}, ${at}`,
  sheet: {
    columns: { section: 'rubrique', site: 'site', of: 'de', figure: 'chiffre', value: 'valeur' },
    sections: {
      promisedVisits: 'visites promises',
      visits: 'visites',
      tickets: 'dossiers',
      clocks: 'délais',
      parts: 'pièces',
      promises: 'promesses',
      availability: 'disponibilité',
      reliability: 'fiabilité',
      advised: 'conseils',
      unfinished: 'provisoire',
    },
  },
  toSign: ['Pour le client : nom, jour, signature', 'Pour l’entreprise : nom, jour, signature'],
};
