import { describe, expect, it } from '@jest/globals';
import {
  DEFAULT_RATES,
  expectFaults,
  type LocateRequest,
  type RequestObservation,
} from '../locator/index.js';
import { wordsIn } from '../words/index.js';
import { planTicketWalk, type WalkEnding, type WalkStep } from './plan-ticket-walk.js';
import type { EndedStep } from '../tickets/ticket-log.js';

const ROOMS = 4;
const nodes = Array.from({ length: ROOMS }, (_, n) => ({
  node: `A${n + 1}`,
  kind: 'station' as const,
  fedFrom: n === 0 ? null : `A${n}`,
  cableMetres: 10,
  cableType: null,
  unitModel: null,
  floor: null,
  room: `Room ${n + 1}`,
}));
const trunks: LocateRequest['trunks'] = [
  {
    id: 'A',
    nodes: nodes.map(({ node, kind, fedFrom }) => ({ id: node, kind, fedFrom, cableMetres: 10 })),
  },
];

type Outcome = RequestObservation['outcome'];
type Known = Required<Pick<LocateRequest, 'observations' | 'looks'>> & { seen: EndedStep[] };

function told(name: RequestObservation['function'], outcomes: readonly (Outcome | null)[]): Known {
  const observations = outcomes.flatMap((outcome, n): RequestObservation[] =>
    outcome === null
      ? []
      : [
          {
            trunk: 'A',
            node: `A${n + 1}`,
            function: name,
            outcome,
            informant: { id: 'office', kind: 'office' },
          },
        ],
  );
  return { observations, looks: [], seen: [] };
}

function plan({ seen, ...known }: Known, rates = DEFAULT_RATES) {
  return planTicketWalk({
    words: wordsIn('en'),
    drawing: { trunks: [{ trunk: 'A', nodes }] },
    request: { trunks, exposureDays: 180, ...known },
    expected: expectFaults(trunks, {
      proofs: [],
      newDaysAgo: () => 180,
      touchedDaysAgo: () => undefined,
      ratesPerYear: ({ component }) => {
        if (component === 'head-end') return rates.headEnd;
        if (component === 'port') return rates.port;
        if (component === 'station') return rates.station;
        return component === 'cable' ? rates.cablePerMetre : rates.junction;
      },
    }),
    from: { trunk: '', node: null },
    seen,
  });
}

/** What is known once an ending was written down as its records say. */
function entered(known: Known, { records }: WalkEnding): Known {
  const after = { ...known };
  for (const record of records) {
    if (record.kind === 'heard') {
      const { kind: _kind, ...heard } = record;
      const informant = { id: 'me', kind: 'technician' as const };
      after.observations = [...after.observations, { ...heard, informant }];
    } else if (record.kind === 'look') {
      const { kind: _kind, ...look } = record;
      after.looks = [...after.looks, look as Known['looks'][number]];
    } else if (record.kind === 'step') {
      const { check, ending } = record;
      after.seen = [...after.seen, { check, ending }];
    }
  }
  return after;
}

const noHeadEnd = { ...DEFAULT_RATES, headEnd: {}, port: {} };
const cases = [
  ['breaks', told('announcement', ['works', null, null, 'fails']), noHeadEnd],
  ['one span', told('announcement', ['works', 'works', 'fails', null]), noHeadEnd],
  [
    'shorts',
    told(
      'lamp',
      Array.from({ length: ROOMS }, () => 'fails' as const),
    ),
    noHeadEnd,
  ],
] as const;

/** The walk along what is likeliest and not the end, by what was written down alone. */
function walkedFrom(first: Known, rates: typeof DEFAULT_RATES, steps: number): WalkStep[] {
  const walked: WalkStep[] = [];
  let known = first;
  while (walked.length < steps) {
    const { next } = plan(known, rates);
    if (next === null) return walked;
    walked.push(next);
    const [going] = next.endings
      .filter(({ records }) => records.every(({ kind }) => kind !== 'finding'))
      .sort((a, b) => b.probability - a.probability);
    if (going === undefined) return walked;
    known = entered(known, going);
  }
  return walked;
}

const ARRIVAL = JSON.stringify(['arrival', 'A', 'A3', 'announcement']);

describe('what is written down of a step', () => {
  it.each(cases)(
    'is never nothing, differs by ending, and is all that the next plan needs (%s)',
    (_name, known, rates) => {
      const walked = walkedFrom(known, rates, 3);
      expect(walked.length).toBeGreaterThan(2);
      for (const { endings } of walked) {
        for (const { records } of endings) expect(records.length).toBeGreaterThan(0);
        const unlike = endings.filter(({ records }) => records[0]?.kind !== 'finding');
        const written = unlike.map(({ records }) => JSON.stringify(records));
        expect(new Set(written).size).toBe(unlike.length);
      }
      const words = walked.map(({ kind, words: said }) => `${kind} ${said}`);
      expect(new Set(words).size).toBe(words.length);
    },
  );

  it('names what is opened, and finds what is at fault there', () => {
    const { next } = plan({ ...cases[1][1], seen: [{ check: ARRIVAL, ending: 1 }] }, noHeadEnd);
    const open = stepsOf(next).find(({ words }) => words === 'Open the terminals at Room 2 OUT');
    const place = { kind: 'span', trunk: 'A', from: 'A2', to: 'A3' };
    const part = 'junction-out';
    const found = open?.endings.find(({ seen }) => seen === 'at fault');
    expect(found?.records).toEqual([{ kind: 'finding', place, component: part, mode: null }]);
    const sound = open?.endings.find(({ seen }) => seen.startsWith('sound'));
    expect(sound?.records[0]).toEqual({ kind: 'look', place, part, seen: 'sound' });
  });

  it('moves the chances by Bayes’ rule where it is no evidence of the locator’s', () => {
    const known = cases[1][1];
    const none = plan({ ...known, seen: [{ check: '["arrival","B","B1","bell"]', ending: 1 }] });
    expect(none.expectedMinutes).toBe(plan(known).expectedMinutes);
    // All arrives at Room 3: what carries it there is sound.
    const { next } = plan({ ...known, seen: [{ check: ARRIVAL, ending: 0 }] }, noHeadEnd);
    const opened = stepsOf(next).map(({ words }) => words);
    expect(opened).not.toContain('Open the terminals at Room 2 OUT');
    expect(opened).not.toContain('Follow the cable from Room 2 to Room 3');
    expect(opened).toContain('Open the terminals at Room 3 IN');
  });
});

function stepsOf(step: WalkStep | null): WalkStep[] {
  return step === null ? [] : [step, ...step.endings.flatMap(({ next }) => stepsOf(next))];
}
