import type { EN_PROMISE } from '../en/promise.js';

export const ES_PROMISE: typeof EN_PROMISE = {
  heading: 'Qué se prometió',
  none: {
    merged: 'Sus notificaciones están ya en otro aviso, y lo prometido también.',
    'no-contract': 'Cuando se avisó no regía ningún contrato: no corre ningún reloj.',
    'nothing-promised': 'El contrato no promete plazo para un fallo que llega hasta ahí.',
  },
  recorded: (reported, recorded) =>
    `Avisado con hora de ${reported}, anotado el ${recorded}: el reloj corre desde lo primero.`,
  saidSo: (reason, computed) => `Alguien lo dijo: ${reason}. Por lo dicho y hallado, ${computed}.`,
  stopped: (since, reason, evidence) =>
    `El reloj está parado desde el ${since}: ${reason} (${evidence}).`,
  wasStopped: (from, until, reason, evidence) =>
    `El reloj estuvo parado del ${from} al ${until}: ${reason} (${evidence}).`,
  shownBy: (evidence, name) => `${evidence}; lo dijo ${name}`,
  due: (at) => `Vence el ${at};`,
  dueNever: 'No vence mientras está parado;',
  done: (due, at) => `${due} hecho el ${at};`,
  pause: 'Parar el reloj',
  pauseWhy: 'Por qué se para',
  evidence: 'Qué lo demuestra, por ejemplo a quién no se localizó y en qué número',
  noReason: 'Diga por qué se para.',
  noEvidence: 'Diga qué lo demuestra: el cliente lo leerá.',
  resume: 'Dejar seguir el reloj',
  classify: 'Decir hasta dónde llega el fallo',
  asComputed: (trouble) => `por lo dicho y hallado: ${trouble}`,
  noWhy: 'Diga por qué.',
  tellCause: 'Decir por qué no se cumplió una promesa',
  which: 'Qué promesa',
};
