import type { EN_PROMISE } from '../en/promise.js';

export const FR_PROMISE: typeof EN_PROMISE = {
  heading: 'Ce qui fut promis',
  none: {
    merged: 'Ses signalements sont maintenant avec un autre ticket, et la promesse aussi.',
    'no-contract':
      'Aucun contrat n’était en vigueur lors du signalement : aucune horloge ne tourne.',
    'nothing-promised': 'Le contrat ne promet aucun délai pour une panne qui va jusque-là.',
  },
  recorded: (reported, recorded) =>
    `Signalé pour le ${reported}, noté le ${recorded} : l’horloge part du premier.`,
  saidSo: (reason, computed) =>
    `Quelqu’un l’a dit : ${reason}. D’après ce qui fut dit et trouvé, ${computed}.`,
  stopped: (since, reason, evidence) =>
    `L’horloge est à l’arrêt depuis le ${since} : ${reason} (${evidence}).`,
  wasStopped: (from, until, reason, evidence) =>
    `L’horloge était à l’arrêt du ${from} au ${until} : ${reason} (${evidence}).`,
  shownBy: (evidence, name) => `${evidence} ; dit par ${name}`,
  due: (at) => `Pour le ${at} ;`,
  dueNever: 'Pas d’échéance tant qu’elle est à l’arrêt ;',
  done: (due, at) => `${due} fait le ${at} ;`,
  pause: 'Arrêter l’horloge',
  pauseWhy: 'Pourquoi elle s’arrête',
  evidence: 'Ce qui le montre, par exemple qui n’a pas répondu et à quel numéro',
  noReason: 'Dites pourquoi elle s’arrête.',
  noEvidence: 'Dites ce qui le montre : le client le lira.',
  resume: 'Remettre l’horloge en marche',
  classify: 'Dire jusqu’où va la panne',
  asComputed: (trouble) => `d’après ce qui fut dit et trouvé : ${trouble}`,
  noWhy: 'Dites pourquoi.',
  tellCause: 'Dire pourquoi une promesse n’est pas tenue',
  which: 'Quelle promesse',
};
