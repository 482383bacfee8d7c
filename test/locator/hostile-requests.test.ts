// locate-wire.md, last paragraph: limits hold on the work, whatever the shape. Work is counted, never timed, so these are exact;
// how long it takes is what test/bench/hostile.bench.ts measures.
import { describe, expect, test } from '@jest/globals';
import { otherDrawings } from '#app/locator/alternatives/other-drawings.js';
import { bordersOf, toldOf } from '#app/locator/alternatives/told-changes.js';
import { unbranchedStretches } from '#app/locator/alternatives/unbranched.js';
import { WorkLeft } from '#app/locator/explain/work.js';
import { locate, type LocateRequest, type LocateResult } from '#app/locator/index.js';
import { trunkTree } from '#app/locator/sweep/trunk-tree.js';
import { DEFAULT_PLAN } from '#app/plan/default-plan.js';
import { tablesOf } from '#app/plan/plan-tables.js';
import { seededRandom } from '#app/statistics/seeded-random.js';
import { cases, tried } from '../support/thorough.js';
import { firstSpansToldOf, HOSTILE } from './hostile-requests.js';

/** Entries of tables that the explanations of one answer may look at, and the last that is looked at in one step. */
const MOST_WORK = 3e7 + 1e7;
const ONE_STEP = 2e6;

/** `times`: what each piece of work counts as, so that a small part of it comes to the bound. */
function locateCounting(request: unknown, times = 1): { answer: LocateResult; work: number } {
  let work = 0;
  const spend = Object.getOwnPropertyDescriptor(WorkLeft.prototype, 'spend')!;
  WorkLeft.prototype.spend = function (this: WorkLeft, entries: number) {
    work += times * entries;
    (spend.value as WorkLeft['spend']).call(this, times * entries);
  };
  try {
    return { answer: locate(request), work };
  } finally {
    Object.defineProperty(WorkLeft.prototype, 'spend', spend);
  }
}

describe('a list of explanations', () => {
  test.each(
    tried(
      [
        ['60 trunks of 20, the lower half of each silent, 10 explanations', true],
        ['a tee of 41, six functions, every second silent', false],
        ['7 nodes with every fault likely, all told of, 1,000 explanations', false],
        ['150 nodes, 17 observations, ten years', false],
        ['300 stations off one tee, a hundred years', false],
        ['a comb of 600, half told of, 1,000 explanations', true],
      ] as const,
      3,
    ),
  )('of %s ends within the work allowed; early: %s', (name, isEarly) => {
    const times = isEarly ? cases({ all: 1, usual: 8 }) : 1;
    const { answer, work } = locateCounting(HOSTILE[name]?.(), times);
    const { explanations = [], uncovered = NaN } = answer;
    expect(work).toBeGreaterThan(0);
    expect(work).toBeLessThan(MOST_WORK + times * ONE_STEP);
    expect(answer.explanationsEndedEarly ?? false).toBe(isEarly);
    expect(explanations.length).toBeGreaterThan(0);
    expect(Number.isFinite(answer.logEvidence)).toBe(true);
    const covered = explanations.reduce((sum, { probability }) => sum + probability, 0);
    expect(covered + uncovered).toBeCloseTo(1, 9);
    const nodesTold = explanations.flatMap(({ trunks }) => trunks.flatMap(({ nodes }) => nodes));
    expect(nodesTold.length).toBeLessThanOrEqual(50_000);
  });

  test('holds nothing where even one explanation is too much, which is said', () => {
    const { spans, times } = cases({
      all: { spans: 5000, times: 1 },
      usual: { spans: 1000, times: 25 },
    });
    const { answer, work } = locateCounting(firstSpansToldOf(spans), times);
    expect(work).toBeLessThan(MOST_WORK + times * ONE_STEP);
    const { explanations, uncovered, explanationsEndedEarly, explanationsLeftOut } = answer;
    expect({ explanations, uncovered, explanationsEndedEarly, explanationsLeftOut }).toEqual({
      explanations: [],
      uncovered: 1,
      explanationsEndedEarly: true,
    });
    expect(answer.troubles.length).toBe(spans / 2);
  });
});

const inRow = (rooms: number, outcomeAt: (room: number) => string | null): LocateRequest => ({
  trunks: [
    {
      id: 'A',
      nodes: Array.from({ length: rooms }, (_, i) => {
        return { id: `S${i}`, kind: 'station' as const, cableMetres: 15 };
      }),
    },
  ],
  exposureDays: 365,
  observations: Array.from({ length: rooms }, (_, i) => outcomeAt(i)).flatMap((outcome, i) =>
    outcome === null
      ? []
      : [{ trunk: 'A', node: `S${i}`, function: 'lamp' as const, outcome: outcome as 'weak' }],
  ),
  explanations: 0,
});

test('bad joints are looked for on the ways of as many points as there is work for, the likeliest', () => {
  const looked = (rooms: number) => {
    const outcomeAt = (i: number) => (i >= rooms - 60 ? 'weak' : i % 50 === 0 ? 'works' : null);
    const { troubles } = locate(inRow(rooms, outcomeAt));
    const isLeft = ({ causes }: (typeof troubles)[number]) =>
      causes.some(({ cause }) => cause.kind === 'weak-feed');
    return troubles.filter((one) => !isLeft(one)).length;
  };
  // One column a span: 100,000 are more than 50 ways of 600 rooms, and 33 of 3,000.
  expect(looked(600)).toBe(50);
  expect(looked(3000)).toBe(33);
});

test('other drawings are those that listing every run would choose', () => {
  for (let seed = 1; seed <= 12; seed++) {
    const random = seededRandom(seed);
    const told = ['fails', 'works', 'works', null];
    const request = inRow(60, () => told[Math.floor(random() * 4)] ?? null);
    const tree = trunkTree(tablesOf(DEFAULT_PLAN), request.trunks[0]!, 365);
    const runs = unbranchedStretches(tree).flatMap((stretch) => {
      const borders = bordersOf(stretch, toldOf(request, tree));
      return borders.flatMap((start, s) => borders.slice(s + 1).map((end) => ({ start, end })));
    });
    expect(runs.length).toBeGreaterThan(100);
    runs.sort((a, b) => {
      const troubled = (one: typeof a) => Number(one.start.ofTrouble) + Number(one.end.ofTrouble);
      const length = (one: typeof a) => one.end.before - one.start.after;
      return troubled(b) - troubled(a) || length(a) - length(b);
    });
    const found = otherDrawings(request, tree, 0.02).flatMap(({ other }) =>
      other.kind === 'branch' ? [[other.run[0], other.run.at(-1)]] : [],
    );
    expect(found).toEqual(
      runs.slice(0, 15).map(({ start, end }) => [`S${start.after}`, `S${end.before}`]),
    );
  }
});

test('five thousand rooms of which every second is silent are listed in no more than linear room', () => {
  const request = inRow(5000, (i) => (i % 2 ? 'fails' : 'works'));
  const tree = trunkTree(tablesOf(DEFAULT_PLAN), request.trunks[0]!, 365);
  // Twelve million runs, were each of them made.
  expect(otherDrawings(request, tree, 0.02)).toHaveLength(15 * 2 + 20);
});
