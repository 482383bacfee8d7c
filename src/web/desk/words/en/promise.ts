export const EN_PROMISE = {
  heading: 'What was promised',
  none: {
    merged: 'Its reports are with another ticket by now, and so is what was promised.',
    'no-contract': 'No contract was in force when it was reported: no clock runs.',
    'nothing-promised': 'The contract promises no time for trouble that goes so far.',
  },
  recorded: (reported: string, recorded: string) =>
    `Reported for ${reported}, written down ${recorded}: the clock runs from the first.`,
  saidSo: (reason: string, computed: string) =>
    `Somebody said so: ${reason}. By what was told and found, ${computed}.`,
  stopped: (since: string, reason: string, evidence: string) =>
    `The clock stands still since ${since}: ${reason} (${evidence}).`,
  wasStopped: (from: string, until: string, reason: string, evidence: string) =>
    `The clock stood still from ${from} to ${until}: ${reason} (${evidence}).`,
  shownBy: (evidence: string, name: string) => `${evidence}; said by ${name}`,
  due: (at: string) => `Due ${at};`,
  dueNever: 'Not due while it stands still;',
  done: (due: string, at: string) => `${due} done ${at};`,
  pause: 'Stop the clock',
  pauseWhy: 'Why it stops',
  evidence: 'What shows it, such as who was not reached at what number',
  noReason: 'Please say why it stops.',
  noEvidence: 'Please say what shows it: the client will read it.',
  resume: 'Let the clock go on',
  classify: 'Say how far the trouble goes',
  asComputed: (trouble: string) => `by what was told and found: ${trouble}`,
  noWhy: 'Please say why.',
  tellCause: 'Say why a promise was not kept',
  which: 'Which promise',
};
