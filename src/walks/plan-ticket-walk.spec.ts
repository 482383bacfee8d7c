import { describe, expect, it } from '@jest/globals';
import {
  expectFaults,
  type LocateRequest,
  type RequestObservation,
  type SiteHistory,
  DEFAULT_RATES,
} from '../locator/index.js';
import { wordsIn } from '../words/index.js';
import { planTicketWalk, type WalkStep } from './plan-ticket-walk.js';

const rowOf = (rooms: number) =>
  Array.from({ length: rooms }, (_, n) => ({
    node: `A${n + 1}`,
    kind: 'station' as const,
    fedFrom: n === 0 ? null : `A${n}`,
    cableMetres: 10,
    cableType: null,
    unitModel: null,
    floor: null,
    room: `Room ${n + 1}`,
  }));
const recordWith = (rates: typeof DEFAULT_RATES): SiteHistory => ({
  proofs: [],
  newDaysAgo: () => 180,
  touchedDaysAgo: () => undefined,
  ratesPerYear: ({ component }) => {
    if (component === 'head-end') return rates.headEnd;
    if (component === 'port') return rates.port;
    if (component === 'station') return rates.station;
    return component === 'cable' ? rates.cablePerMetre : rates.junction;
  },
});

type Told = [room: number, outcome: RequestObservation['outcome']];

interface Case {
  told: readonly Told[];
  looks?: LocateRequest['looks'];
  name?: RequestObservation['function'];
  from?: string | null;
  rates?: typeof DEFAULT_RATES;
}

function plan(
  rooms: number,
  { told, looks = [], name = 'announcement', from = null, rates = DEFAULT_RATES }: Case,
) {
  const nodes = rowOf(rooms);
  const trunks: LocateRequest['trunks'] = [
    {
      id: 'A',
      nodes: nodes.map(({ node, kind, fedFrom }) => ({ id: node, kind, fedFrom, cableMetres: 10 })),
    },
  ];
  const observations = told.map(([room, outcome]): RequestObservation => ({
    trunk: 'A',
    node: `A${room}`,
    function: name,
    outcome,
    informant: { kind: 'technician' },
  }));
  return planTicketWalk({
    words: wordsIn('en'),
    drawing: { trunks: [{ trunk: 'A', nodes }] },
    request: { trunks, exposureDays: 180, observations, looks },
    expected: expectFaults(trunks, recordWith(rates)),
    from: { trunk: from === null ? '' : 'A', node: from },
  });
}

function* stepsOf(step: WalkStep | null): Generator<WalkStep> {
  if (step === null) return;
  yield step;
  for (const { next } of step.endings) yield* stepsOf(next);
}

const gapBetween = (heard: number, silent: number, from: string | null = null) =>
  plan(12, {
    from,
    told: rowOf(12).flatMap((_, n): Told[] => {
      if (n + 1 > heard && n + 1 < silent) return [];
      return [[n + 1, n + 1 <= heard ? 'works' : 'fails']];
    }),
  });

describe('the walk of a ticket', () => {
  it('is the exact optimum for one break on a row of rooms', () => {
    const { isExact, next, leftOut, printed, nothingAtFault } = gapBetween(3, 10);
    expect(isExact).toBe(true);
    expect(leftOut).toBeLessThan(0.05);
    expect(nothingAtFault).toBeLessThan(1e-6);
    expect(next?.kind).toBe('check');
    expect(next?.words).toMatch(/^Listen to an announcement in Room [56]$/);
    expect(printed[0]).toMatch(/^Listen to an announcement in Room [56] \(\d+ min\)\.$/);
    expect(printed[1]).toMatch(/^ {2}If it is (heard|silent) \(\d+ %\): /);
  });

  it('goes to the joints straight where the stretch is one span', () => {
    const { next, parts, expectedMinutes } = gapBetween(5, 6);
    expect(next?.words).toMatch(/^Open the terminals at Room [56] (IN|OUT)$/);
    expect(parts[0]).toMatchObject({ id: 'connectors', isCarried: true });
    expect(parts[0]?.neededChance).toBeGreaterThan(0.9);
    expect(expectedMinutes).toBeGreaterThan(14);
    expect(expectedMinutes).toBeLessThan(40);
  });

  it('starts from where one stands', () => {
    const afar = gapBetween(3, 10);
    const there = gapBetween(3, 10, afar.next?.where.node);
    expect(there.next).toMatchObject({ words: afar.next?.words, where: { trunk: 'A' } });
    expect(there.next?.minutes).toBeLessThan(afar.next?.minutes ?? 0);
    expect(there.expectedMinutes).toBeLessThan(afar.expectedMinutes);
  });

  it('looks ahead where stations may be at fault too, and its endings add up', () => {
    const told: Told[] = [
      [2, 'works'],
      [4, 'fails'],
    ];
    const answer = plan(5, { told });
    expect(answer.isExact).toBe(false);
    const steps = [...stepsOf(answer.next)];
    expect(steps.length).toBeGreaterThan(3);
    for (const { endings, minutes, expectedMinutes } of steps) {
      expect(endings.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
      expect(expectedMinutes).toBeGreaterThanOrEqual(minutes);
    }
    expect(plan(5, { told })).toEqual(answer);
  });

  it('looks at the fuse before the terminals beside it, which are rarer and slower', () => {
    const told = rowOf(4).map((_, n): Told => [n + 1, 'fails']);
    const rates = { ...DEFAULT_RATES, headEnd: {} };
    const { next } = plan(4, { told, name: 'lamp', rates });
    expect(next?.words).toBe('Look at the fuse and output terminals of trunk A');
    // And what is found there counts: with the fuse sound, what lies beside it is next, or what halves the line.
    const place = { kind: 'port', trunk: 'A' } as const;
    const looks = [{ place, part: 'no-output', seen: 'sound' } as const];
    const after = plan(4, { told, name: 'lamp', rates, looks }).next;
    expect(after?.words).not.toContain('fuse');
  });

  it('goes on from what was found sound, and opens nothing twice', () => {
    const told = rowOf(6).map((_, n): Told => [n + 1, n < 3 ? 'works' : 'fails']);
    const looks: NonNullable<LocateRequest['looks']> = [];
    const opened: string[] = [];
    let { next } = plan(6, { told, looks, from: 'A4' });
    while (next?.kind === 'open' && next.look !== null && opened.length < 10) {
      opened.push(next.words);
      looks.push({ ...next.look, seen: 'sound' } as (typeof looks)[number]);
      ({ next } = plan(6, { told, looks, from: 'A4' }));
    }
    expect(opened.length).toBeGreaterThan(1);
    expect(opened.length).toBeLessThan(10);
    expect(new Set(opened).size).toBe(opened.length);
    expect(next).not.toBeNull();
    expect(next?.kind === 'remake' || !opened.includes(next?.words ?? '')).toBe(true);
  });

  it('leaves out what may be broken without silencing anything that was reported', () => {
    const told: Told[] = [
      [1, 'works'],
      [2, 'works'],
      [3, 'fails'],
      [4, 'works'],
    ];
    const { nothingAtFault, next } = plan(4, { told, name: 'bell' });
    expect(nothingAtFault).toBeLessThan(0.05);
    expect(next?.words).toBe('See to the station in Room 3');
  });

  it('takes part of the trunk off to place a short', () => {
    const told = rowOf(4).map((_, n): Told => [n + 1, 'fails']);
    const rates = { ...DEFAULT_RATES, headEnd: {}, port: {} };
    const { next, printed } = plan(4, { told, name: 'lamp', rates });
    const all = [...stepsOf(next)].map(({ words }) => words);
    expect(all.some((words) => / and see whether the trunk comes back$/.test(words))).toBe(true);
    expect(printed.join('\n')).toContain('If it comes back');
  });

  it('says how likely it is that nothing is at fault', () => {
    const { nothingAtFault } = plan(1, { told: [[1, 'works']], name: 'lamp' });
    expect(nothingAtFault).toBeGreaterThan(0.9);
  });
});
