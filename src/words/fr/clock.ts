import { clockSentences } from '../clock-sentences.js';

export const FR_CLOCK = clockSentences({
  language: 'fr',
  locale: 'fr',
  troubleClass: {
    'whole-site': 'tout le site est sans son',
    'whole-trunk': 'toute une ligne est sans son',
    'several-rooms': 'plusieurs salles sont sans son',
    'one-room': 'une salle est sans son',
  },
  paused: {
    'no-access': 'pas d’accès',
    'waiting-for-client': 'en attente du client',
    'part-on-order': 'pièce commandée',
    closed: 'le dossier était clos',
  },
  promised: { response: 'quelqu’un sur place', restore: 'de nouveau en service' },
  units: { hours: 'h', minutes: 'min', seconds: 's' },
  fromTo: (from, to) => `de ${from} à ${to}`,
  left: (duration) => `reste ${duration}`,
  usedUp: 'épuisé',
  noHours: 'hors horaires',
  closed: (why) => `fermé (${why})`,
  closedWhy: { 'public-holiday': 'jour férié', 'closed-day': 'jour fermé', calendar: 'vacances' },
  pausedFrom: (from, until) =>
    until === null ? `suspendu depuis ${from}` : `suspendu de ${from} à ${until}`,
  further: (lines) => `${lines} lignes de plus`,
  within: (what, duration) => `${what} sous ${duration}`,
  reported: (when) => `signalé ${when}`,
  standsStill: 'il est arrêté',
  neverOpen: 'les horaires n’ouvrent pas assez longtemps',
});
