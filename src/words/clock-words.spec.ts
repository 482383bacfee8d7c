import { describe, expect, it } from '@jest/globals';

import type { ClockLine } from '../promises/promise-clock.js';
import { clockWordsIn } from './clock-words-in.js';

const at = (text: string) => Date.parse(`${text}:00+02:00`);
const HOUR = 3_600_000;
const LINES: ClockLine[] = [
  {
    kind: 'counted',
    day: '2026-04-03',
    from: at('2026-04-03T16:20'),
    until: at('2026-04-03T17:00'),
    ms: (40 / 60) * HOUR,
    leftMs: (200 / 60) * HOUR,
  },
  { kind: 'closed', from: '2026-04-04', to: '2026-04-05', why: 'no-hours', name: null },
  {
    kind: 'closed',
    from: '2026-04-06',
    to: '2026-04-06',
    why: 'public-holiday',
    name: 'Easter Monday',
  },
  {
    kind: 'counted',
    day: '2026-04-07',
    from: at('2026-04-07T08:00'),
    until: at('2026-04-07T11:20'),
    ms: (200 / 60) * HOUR,
    leftMs: 0,
  },
];

describe('the words of a clock', () => {
  const words = clockWordsIn('en');
  const zone = 'Europe/Berlin';
  const clock = {
    promise: 'response',
    promisedMinutes: 240,
    state: 'running',
    lines: LINES,
  } as const;

  it('go from the report to the due instant', () => {
    const dueAt = at('2026-04-07T11:20');
    const reportedAt = at('2026-04-03T16:20');
    expect(words.reckoning({ zone, reportedAt, clock: { ...clock, dueAt } })).toBe(
      'somebody on site within 4 h: reported Friday 3 April, 16:20; Friday 3 April, 16:20 to 17:00: 40 min, 3 h 20 min left; ' +
        'Saturday 4 April to Sunday 5 April: no hours; Monday 6 April: closed (Easter Monday); ' +
        'Tuesday 7 April, 08:00 + 3 h 20 min = 11:20',
    );
  });

  it('say what is paused and why', () => {
    const pause = {
      kind: 'paused',
      from: at('2026-04-07T08:00'),
      until: null,
      reason: 'no-access',
      evidence: 'photo',
      saidBy: null,
    } as const;
    expect(words.line(pause, zone)).toBe(
      'paused from Tuesday 7 April, 08:00 on: no access (photo)',
    );
    expect(words.line({ ...pause, until: at('2026-04-07T09:30') }, zone)).toBe(
      'paused from Tuesday 7 April, 08:00 to Tuesday 7 April, 09:30: no access (photo)',
    );
    const standing = { ...clock, state: 'paused' as const, dueAt: null, lines: [pause] };
    expect(words.reckoning({ zone, reportedAt: pause.from, clock: standing })).toMatch(
      /; it stands still$/,
    );
    expect(words.line({ kind: 'further', lines: 9, ms: 90_500 }, zone)).toBe(
      '… 9 more lines: 1 min 31 s',
    );
  });

  it.each([
    [
      'es',
      'alguien en el lugar en 4 h: comunicado: viernes 3 de abril, 16:20; viernes 3 de abril, de 16:20 a 17:00: 40 min, quedan 3 h 20 min; ' +
        'de sábado 4 de abril a domingo 5 de abril: sin horario; lunes 6 de abril: cerrado (Easter Monday); ' +
        'martes 7 de abril, 08:00 + 3 h 20 min = 11:20',
    ],
    [
      'fr',
      'quelqu’un sur place en 4 h: signalé vendredi 3 avril, 16:20; vendredi 3 avril, de 16:20 à 17:00: 40 min, reste 3 h 20 min; ' +
        'de samedi 4 avril à dimanche 5 avril : hors horaires; lundi 6 avril : fermé (Easter Monday); ' +
        'mardi 7 avril, 08:00 + 3 h 20 min = 11:20',
    ],
    [
      'hi',
      '4 घंटे में किसी का पहुँचना: सूचना शुक्रवार 3 अप्रैल, 16:20; शुक्रवार 3 अप्रैल, 16:20 से 17:00: 40 मिनट, 3 घंटे 20 मिनट बाक़ी; ' +
        'शनिवार 4 अप्रैल से रविवार 5 अप्रैल: काम का समय नहीं; सोमवार 6 अप्रैल: बंद (Easter Monday); ' +
        'मंगलवार 7 अप्रैल, 08:00 + 3 घंटे 20 मिनट = 11:20',
    ],
  ] as const)('are said in %s', (language, told) => {
    const dueAt = at('2026-04-07T11:20');
    const reportedAt = at('2026-04-03T16:20');
    const reckoned = { zone, reportedAt, clock: { ...clock, dueAt } };
    expect(clockWordsIn(language).reckoning(reckoned)).toBe(told);
  });
});
