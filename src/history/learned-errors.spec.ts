import { describe, expect, it } from '@jest/globals';
import { locate } from '../locator/index.js';
import { DEFAULT_ERROR_RATES } from '../plan/error-rates.js';
import type { AsBuilt } from '../sites/as-built.js';
import { NOTHING_DRAWN } from '../sites/as-built.js';
import { blankNode } from '../sites/as-built-fields.js';
import { trunksOf } from '../sites/drawing.js';
import { errorRatesBy, learnErrors, type PastCall } from './learned-errors.js';
import { quietChance } from './quiet-chance.js';
import { type ClosedTicket, type PastLook, ticketExperience } from './ticket-experience.js';
import type { WorkEntry } from './work-done.js';

const OPENED = new Date('2026-03-01T00:00:00Z');
const nodes = Array.from({ length: 8 }, (_, n) => ({
  ...blankNode(`A${n + 1}`, 12),
  fedFrom: n === 0 ? null : `A${n}`,
}));
const asBuilt: AsBuilt = {
  ...NOTHING_DRAWN,
  trunks: [{ trunk: 'A', name: 'A', port: null, nodes }],
};
const POINT = { trunk: 'A', node: 'A6', function: 'announcement' } as const;

const ticket = (of: Partial<ClosedTicket> = {}): ClosedTicket => ({
  id: 'T',
  siteId: 'S',
  asBuiltVersion: 1,
  openedAt: OPENED,
  closedAt: OPENED,
  entries: [],
  points: [POINT],
  looks: [],
  ...of,
});
const NO_LOOKS = { office: { missed: 0, seen: 0 }, technician: { missed: 0, seen: 0 } };
const entry = (kind: 'finding' | 'mending', details: WorkEntry['details'] = {}): WorkEntry => {
  return { ticketId: 'T', kind, happenedAt: OPENED, details };
};

function call(found: boolean): PastCall {
  const entries = found
    ? [entry('finding'), entry('mending')]
    : [entry('finding', { place: null })];
  const { isFound, quiet } = ticketExperience(ticket({ entries }), asBuilt);
  return { isFound: isFound!, quiet: quiet! };
}
const calls = (found: number, nothing: number) => [
  ...Array.from({ length: found }, () => call(true)),
  ...Array.from({ length: nothing }, () => call(false)),
];

describe('the chance that all is well at a point', () => {
  it.each(['announcement', 'room-call', 'lamp', 'talkback'] as const)(
    'is what the locator takes it for before anything is said: %s',
    (name) => {
      for (const days of [30, 180]) {
        const { predictions } = locate({ trunks: trunksOf(asBuilt), exposureDays: days });
        const works = predictions.find((one) => one.node === 'A6' && one.function === name)!.works;
        const quiet = quietChance(asBuilt, [{ ...POINT, function: name }], days);
        // A weak feed is no dead one, to the predictions; it has the rates of the bad joints of six spans.
        const weak = 1 - Math.exp((-(12 * 0.002 + 6 * 12 * 5e-6) * days) / 365.25);
        expect(quiet).toBeCloseTo(works * (1 - weak), 2);
        expect(Math.abs(quiet - works * (1 - weak))).toBeLessThan(0.002 + 0.01 * (1 - quiet));
      }
    },
  );

  it('is less of more points, and of one at the end than of one at the beginning', () => {
    const first = { ...POINT, node: 'A1' };
    const of = (...points: (typeof POINT | typeof first)[]) => quietChance(asBuilt, points, 90);
    expect(of(first)).toBeGreaterThan(of(POINT));
    expect(of(first, POINT)).toBeLessThan(of(POINT));
    expect(of()).toBe(1);
  });
});

describe('how often calls are about nothing', () => {
  it('is the starting value to the last digit without a record, and near it while the record agrees', () => {
    expect(learnErrors([], NO_LOOKS).falseAlarmRatio).toBe(0.02);
    const q = quietChance(asBuilt, [POINT], 180);
    const share = (0.02 * q) / (1 - q + 0.02 * q);
    const nothing = Math.round(1000 * share);
    const learned = learnErrors(calls(1000 - nothing, nothing), NO_LOOKS);
    expect(learned).toMatchObject({ calls: 1000, nothingFound: nothing });
    expect(learned.falseAlarmRatio).toBeCloseTo(0.02, 2);
  });

  it('comes to what the share of calls says, as the fault model has it', () => {
    const { falseAlarmRatio } = learnErrors(calls(3000, 2000), NO_LOOKS);
    const q = quietChance(asBuilt, [POINT], 180);
    expect(falseAlarmRatio).toBeCloseTo((0.4 * (1 - q)) / (0.6 * q), 2);
  });

  it('rises with calls about nothing, falls with calls about something, and stays where the locator takes it', () => {
    const ratio = (found: number, nothing: number) =>
      learnErrors(calls(found, nothing), NO_LOOKS).falseAlarmRatio;
    expect(ratio(10, 10)).toBeGreaterThan(ratio(10, 2));
    expect(ratio(10, 2)).toBeGreaterThan(ratio(100, 2));
    expect(ratio(4000, 0)).toBe(0.01);
    expect(ratio(0, 1000)).toBeLessThanOrEqual(1);
  });

  it('goes by calls of which somebody said what was found, and what was said not to work', () => {
    const of = (entries: WorkEntry[], points = [POINT]) =>
      ticketExperience(ticket({ entries, points }), asBuilt);
    expect(of([])).toMatchObject({ isFound: null, quiet: null });
    expect(of([entry('mending')], [])).toMatchObject({ isFound: null, quiet: null });
    const somewhere = { kind: 'head-end' } as const;
    expect(of([entry('finding', { place: somewhere })])).toMatchObject({ isFound: true });
  });
});

describe('how often looks miss', () => {
  const place = { kind: 'span', trunk: 'A', from: 'A2', to: 'A3' } as const;
  const FOUND = { place, component: 'junction-in', mode: 'open-speech' };
  const look = (more: Partial<PastLook> = {}): PastLook => ({
    place,
    part: 'junction-in',
    seen: 'sound',
    saidByKind: 'technician',
    lookedAt: OPENED,
    ...more,
  });
  const learnedOf = (looks: PastLook[], found: object = FOUND, isMended = true) => {
    const entries = [entry('finding', found), ...(isMended ? [entry('mending')] : [])];
    const counts = ticketExperience(ticket({ entries, looks }), asBuilt).looks;
    return learnErrors([], counts ?? NO_LOOKS);
  };
  const technician = (looks: PastLook[], found: object = FOUND, isMended = true) =>
    learnedOf(looks, found, isMended).looks.technician;

  it('is Beta around the starting value', () => {
    expect(technician([])).toEqual({ missed: 0, seen: 0, missedChance: 0.05 });
    const looks = [look(), look(), look({ seen: 'faulty' })];
    expect(technician(looks)).toEqual({ missed: 2, seen: 1, missedChance: 4 / 43 });
    expect(technician(Array.from({ length: 4000 }, () => look({ seen: 'faulty' })))).toMatchObject({
      missedChance: 0.01,
    });
  });

  it('goes by looks at what was broken then: not after the mending, elsewhere, or of another kind', () => {
    const others = [
      look({ lookedAt: new Date('2026-03-02T00:00:00Z') }),
      look({ part: 'junction-out' }),
      look({ saidByKind: 'office' }),
      look({ place: { ...place, to: 'A4' } }),
    ];
    expect(technician(others)).toMatchObject({ missed: 0, seen: 0 });
    expect(technician([look()], FOUND, false)).toMatchObject({ missed: 0 });
  });

  it('says nothing of cables and bad joints, which everybody misses more often', () => {
    const cable = { ...FOUND, component: 'cable' };
    expect(technician([look({ part: 'cable' })], cable)).toMatchObject({ missed: 0 });
    expect(technician([look()], { ...FOUND, mode: 'resistive' })).toMatchObject({ missed: 0 });
  });

  it('is what the locator then goes by', () => {
    expect(errorRatesBy(null)).toBe(DEFAULT_ERROR_RATES);
    const request = {
      trunks: trunksOf(asBuilt),
      exposureDays: 90,
      observations: [
        { trunk: 'A', node: 'A2', function: 'bell', outcome: 'works' },
        { trunk: 'A', node: 'A3', function: 'bell', outcome: 'fails' },
        { trunk: 'A', node: 'A8', function: 'bell', outcome: 'fails' },
      ],
      looks: [{ place, part: 'junction-in', seen: 'sound' }],
    } as const;
    const openAt = (missed: PastLook[]) => {
      const errors = errorRatesBy(learnedOf(missed));
      const { places } = locate(request, errors);
      const span = places.find((one) => one.place.kind === 'span' && one.place.to === 'A3')!;
      return 1 - span.components.find((one) => one.component === 'junction-in')!.modes.ok!;
    };
    const often = openAt(Array.from({ length: 200 }, () => look()));
    expect(openAt([])).toBeLessThan(0.06);
    expect(often).toBeGreaterThan(0.2);
  });
});
