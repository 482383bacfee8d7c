import { clockSentences } from '../clock-sentences.js';

export const ES_CLOCK = clockSentences({
  language: 'es',
  locale: 'es',
  troubleClass: {
    'whole-site': 'todo el centro está sin sonido',
    'whole-trunk': 'toda una línea está sin sonido',
    'several-rooms': 'varias salas están sin sonido',
    'one-room': 'una sala está sin sonido',
  },
  paused: {
    'no-access': 'sin acceso',
    'waiting-for-client': 'a la espera del cliente',
    'part-on-order': 'pieza pedida',
    closed: 'el aviso estaba cerrado',
  },
  promised: { response: 'alguien en el lugar', restore: 'de nuevo en servicio' },
  units: { hours: 'h', minutes: 'min', seconds: 's' },
  fromTo: (from, to) => `de ${from} a ${to}`,
  left: (duration) => `quedan ${duration}`,
  usedUp: 'agotado',
  noHours: 'sin horario',
  closed: (why) => `cerrado (${why})`,
  closedWhy: { 'public-holiday': 'festivo', 'closed-day': 'día cerrado', calendar: 'vacaciones' },
  pausedFrom: (from, until) =>
    until === null ? `en pausa desde ${from}` : `en pausa de ${from} a ${until}`,
  further: (lines) => `${lines} líneas más`,
  within: (what, duration) => `${what} en ${duration}`,
  reported: (when) => `comunicado ${when}`,
  standsStill: 'está parado',
  neverOpen: 'el horario no abre el tiempo suficiente',
});
