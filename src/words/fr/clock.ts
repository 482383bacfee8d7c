import { clockSentences } from '../clock-sentences.js';

export const FR_CLOCK = clockSentences({
  language: 'fr',
  locale: 'fr',
  troubleClass: {
    'whole-site': 'tout le site est sans son',
    'whole-trunk': 'une ligne entière est sans son',
    'several-rooms': 'plusieurs salles sont sans son',
    'one-room': 'une salle est sans son',
  },
  units: ['h', 'min', 's'],
  usedUp: 'épuisé',
  left: (duration) => `reste ${duration}`,
  range: (from, to) => `de ${from} à ${to}`,
  noHours: (days) => `${days} : hors horaires`,
  closed: (days, why) => `${days} : fermé (${why})`,
  closedBy: {
    'public-holiday': 'jour férié',
    'closed-day': 'jour de fermeture',
    calendar: 'calendrier',
  },
  pausedFor: {
    'no-access': 'pas d’accès',
    'waiting-for-client': 'en attente du client',
    'part-on-order': 'une pièce est commandée',
    closed: 'le dossier était clos',
  },
  paused: (from, until, reason) =>
    `en pause à partir de ${from}${until === null ? '' : `, jusqu’à ${until}`} : ${reason}`,
  further: (lines, duration) => `${lines} lignes de plus : ${duration}`,
  promised: { response: 'quelqu’un sur place', restore: 'remise en service' },
  within: (what, duration) => `${what} en ${duration}`,
  reported: (at) => `signalé ${at}`,
  standsStill: 'le délai est arrêté',
  neverOpens: 'les horaires ne laissent pas assez de temps',
});
