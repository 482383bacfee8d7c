import { clockSentences } from '../clock-sentences.js';

export const ES_CLOCK = clockSentences({
  language: 'es',
  locale: 'es',
  troubleClass: {
    'whole-site': 'todo el lugar está sin sonido',
    'whole-trunk': 'una línea entera está sin sonido',
    'several-rooms': 'varias salas están sin sonido',
    'one-room': 'una sala está sin sonido',
  },
  units: ['h', 'min', 's'],
  usedUp: 'agotado',
  left: (duration) => `quedan ${duration}`,
  range: (from, to) => `de ${from} a ${to}`,
  noHours: (days) => `${days}: sin horario`,
  closed: (days, why) => `${days}: cerrado (${why})`,
  closedBy: { 'public-holiday': 'festivo', 'closed-day': 'día cerrado', calendar: 'calendario' },
  pausedFor: {
    'no-access': 'no hubo acceso',
    'waiting-for-client': 'a la espera del cliente',
    'part-on-order': 'hay una pieza pedida',
    closed: 'el aviso estaba cerrado',
  },
  paused: (from, until, reason) =>
    `en pausa desde ${from} ${until === null ? 'en adelante' : `hasta ${until}`}: ${reason}`,
  further: (lines, duration) => `${lines} líneas más: ${duration}`,
  promised: { response: 'alguien en el lugar', restore: 'todo vuelve a funcionar' },
  within: (what, duration) => `${what} en ${duration}`,
  reported: (at) => `comunicado: ${at}`,
  standsStill: 'el plazo está parado',
  neverOpens: 'el horario no deja tiempo suficiente',
});
