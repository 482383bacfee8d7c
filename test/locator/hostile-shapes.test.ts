// locate-wire.md, last paragraph: whatever the shape, an answer ends, and an explanation list that would take longer ends
// early and says so. How long it takes is what test/bench/hostile.bench.ts measures.
import { expect, test } from '@jest/globals';
import { locate, type LocateResult } from '#app/locator/index.js';
import { seededRandom } from '#app/statistics/seeded-random.js';
import { hostileShape } from './hostile-shapes.js';

function expectBounded({ explanations = [], uncovered = NaN, ...answer }: LocateResult): void {
  expect(Number.isFinite(answer.logEvidence)).toBe(true);
  const covered = explanations.reduce((sum, { probability }) => sum + probability, 0);
  expect(covered + uncovered).toBeCloseTo(1, 9);
  explanations.forEach(({ probability }, i) => {
    if (i > 0) expect(probability).toBeLessThanOrEqual(explanations[i - 1]!.probability + 1e-12);
  });
  const told = explanations.flatMap(({ trunks }) => trunks.flatMap(({ nodes }) => nodes));
  expect(told.length).toBeLessThanOrEqual(50_000);
}

const BIG = { nodes: 5000, trunks: 1, years: 1, explanations: 10, callers: 0 };

test.each([
  ['fan', 'none', BIG, false],
  ['fan', 'all', BIG, true],
  ['tee', 'none', { ...BIG, nodes: 301, years: 100 }, false],
  ['bush', 'little', BIG, true],
  ['comb', 'half', { ...BIG, explanations: 1000 }, true],
  ['row', 'all', { ...BIG, nodes: 1200, trunks: 60 }, true],
  ['binary', 'all', { ...BIG, callers: 400, years: 100 }, true],
  ['bush', 'little', { ...BIG, nodes: 150, years: 10 }, false],
] as const)('%s of which %s is told: %j', (shape, evidence, given, isEarly) => {
  const { request } = hostileShape(shape, evidence, given, seededRandom(7));
  const answer = locate(request);
  expectBounded(answer);
  expect(answer.explanationsEndedEarly ?? false).toBe(isEarly);
  if (!isEarly) expect(answer.explanations).toHaveLength(10);
});

test('a list of very many nodes is cut where it has told 50,000 of them', () => {
  const given = { ...BIG, nodes: 2500, years: 0.001, explanations: 1000 };
  const { request } = hostileShape('row', 'all', given, seededRandom(3));
  const observations = request.observations?.map((one) => ({ ...one, outcome: 'works' }));
  const answer = locate({ ...request, observations });
  expectBounded(answer);
  expect(answer.explanationsEndedEarly).toBe(true);
  expect(answer.explanations?.length).toBeLessThanOrEqual(20);
});
