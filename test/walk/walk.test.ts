import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  partsToCarry,
  pathOptimum,
  planWalk,
  prepareWalk,
  rollout,
  walkPlanner,
} from '#app/walk/index.js';
import type { Part, WalkProblem } from '#app/walk/index.js';
import { openInOrder } from '#app/walk/open-in-order.js';
import { seededRandom } from '../electrical/seeded-random.js';
import { exhaustiveOptimum } from './exhaustive-optimum.js';
import { policyMinutes, type Policy } from './policy-minutes.js';
import { randomMissed, randomNoisy, randomPath } from './random-walks.js';
import { cases } from '../support/thorough.js';

const lookAhead: Policy = (prepared, state) => rollout(prepared, state).action;
const mean = (values: number[]) => values.reduce((a, b) => a + b, 0) / values.length;

describe('one fault on a path', () => {
  it('the dynamic programme is the exhaustive optimum (4 to 6 rooms)', () => {
    const random = seededRandom(1);
    for (let i = 0; i < 12; i++) {
      const { walk, path } = randomPath(4 + (i % 3), random);
      expect(pathOptimum(path).minutes).toBeCloseTo(exhaustiveOptimum(walk), 9);
    }
  });

  it('the planner recognises it and is expected to take as long as it does', () => {
    const random = seededRandom(2);
    for (let i = 0; i < 5; i++) {
      const { walk, path } = randomPath(9, random);
      const planner = walkPlanner(walk);
      const prepared = prepareWalk(walk);
      expect(planner.isExact).toBe(true);
      expect(planner.next(planner.start).minutes).toBeCloseTo(pathOptimum(path).minutes, 9);
      const walked = policyMinutes(prepared, (_, state) => planner.next(state).action);
      expect(walked).toBeCloseTo(pathOptimum(path).minutes, 9);
    }
  });

  it('looking ahead stays within 1.01 on average, 1.10 at worst (10 rooms)', () => {
    const random = seededRandom(3);
    const ratios = Array.from({ length: 10 }, () => {
      const { walk, path } = randomPath(10, random);
      return policyMinutes(prepareWalk(walk), lookAhead) / pathOptimum(path).minutes;
    });
    expect(Math.min(...ratios)).toBeGreaterThan(1 - 1e-9);
    expect(Math.max(...ratios)).toBeLessThan(1.1);
    expect(mean(ratios)).toBeLessThan(1.01);
  });
});

describe('up to two faults, noisy checks', () => {
  it('looking ahead stays within 1.03 of the exhaustive optimum, 1.15 at worst (4 rooms)', () => {
    const random = seededRandom(4);
    const ratios = Array.from({ length: cases({ all: 12, usual: 6 }) }, () => {
      const problem = randomNoisy(4, random);
      return policyMinutes(prepareWalk(problem), lookAhead) / exhaustiveOptimum(problem);
    });
    expect(Math.min(...ratios)).toBeGreaterThan(1 - 1e-9);
    expect(Math.max(...ratios)).toBeLessThan(1.15);
    expect(mean(ratios)).toBeLessThan(1.03);
  });
});

describe('looks that miss faults', () => {
  it('looking ahead stays within 1.04 of the exhaustive optimum, 1.15 at worst (3 rooms)', () => {
    const random = seededRandom(7);
    const ratios = Array.from({ length: cases({ all: 8, usual: 4 }) }, () => {
      const problem = randomMissed(3, random);
      return policyMinutes(prepareWalk(problem), lookAhead) / exhaustiveOptimum(problem);
    });
    expect(Math.min(...ratios)).toBeGreaterThan(1 - 1e-9);
    expect(Math.max(...ratios)).toBeLessThan(1.15);
    expect(mean(ratios)).toBeLessThan(1.04);
  });
});

describe('published orders', () => {
  // Kadane and Simon 1977 (read as abstract): with one fault and costs that do not depend on the
  // order, trying places by p/c is optimal.
  it('ratio rule: opening by p/c is the exhaustive optimum without checks or walking', () => {
    const random = seededRandom(6);
    for (let i = 0; i < 8; i++) {
      const weights = Array.from({ length: 6 }, () => 0.1 + random());
      const total = weights.reduce((a, b) => a + b, 0);
      const problem: WalkProblem = {
        walkMinutes: [[0]],
        startSpot: 0,
        places: weights.map(() => ({
          label: 'Open',
          spot: 0,
          openMinutes: 1 + 9 * random(),
          mendMinutes: 0,
        })),
        checks: [],
        worlds: weights.map((w, fault) => ({ faults: [fault], probability: w / total })),
      };
      const prepared = prepareWalk(problem);
      const optimum = exhaustiveOptimum(problem);
      expect(openInOrder(prepared, prepared.start).minutes).toBeCloseTo(optimum, 9);
      expect(policyMinutes(prepared, lookAhead)).toBeCloseTo(optimum, 9);
    }
  });
});

describe('any walk', () => {
  const chance = fc.integer({ min: 0, max: 100 });
  const minutes = fc.integer({ min: 0, max: 20 });
  const problem = fc
    .record({
      spots: fc.integer({ min: 1, max: 4 }),
      walks: fc.array(minutes, { minLength: 16, maxLength: 16 }),
      places: fc.array(fc.tuple(chance, minutes, minutes, fc.boolean()), {
        minLength: 1,
        maxLength: 4,
      }),
      checks: fc.array(
        fc.tuple(chance, minutes, fc.array(chance, { minLength: 16, maxLength: 16 })),
        {
          maxLength: 3,
        },
      ),
      weights: fc.array(chance, { minLength: 15, maxLength: 15 }),
    })
    .map(({ spots, walks, places, checks, weights }): WalkProblem => {
      const worlds = Array.from({ length: 2 ** places.length - 1 }, (_, bits) => ({
        faults: places.map((_p, place) => place).filter((place) => ((bits + 1) >> place) & 1),
        probability: weights[bits]! + 0.5,
      }));
      const total = worlds.reduce((sum, { probability }) => sum + probability, 0);
      return {
        walkMinutes: Array.from({ length: spots }, (_, i) =>
          Array.from({ length: spots }, (_s, j) => (i === j ? 0 : walks[4 * i + j]!)),
        ),
        startSpot: 0,
        places: places.map(([spot, openMinutes, mendMinutes, shows]) => {
          const check = shows && checks.length > 0 ? spot % checks.length : undefined;
          return { label: 'Open', spot: spot % spots, openMinutes, mendMinutes, check };
        }),
        checks: checks.map(([spot, checkMinutes, goods]) => ({
          label: 'Look',
          spot: spot % spots,
          minutes: checkMinutes,
          outcomes: ['good', 'dead'],
          chances: (faults) => {
            const good = goods[faults.reduce((bits, place) => bits + 2 ** place, 0)]! / 100;
            return [good, 1 - good];
          },
        })),
        worlds: worlds.map(({ faults, probability }) => ({
          faults,
          probability: probability / total,
        })),
      };
    });

  it('has a plan that ends, with finite minutes, and looking ahead is never below the optimum', () => {
    fc.assert(
      fc.property(problem, (walk) => {
        const plan = planWalk(walk, { steps: 3, leastChance: 0.01 });
        expect(Number.isFinite(plan.expectedMinutes)).toBe(true);
        const walked = policyMinutes(prepareWalk(walk), lookAhead);
        expect(Number.isFinite(walked)).toBe(true);
        if (walk.places.length > 2) return; // up to two faults: the exhaustive optimum knows no more
        expect(walked).toBeGreaterThan(exhaustiveOptimum(walk) - 1e-6);
      }),
      { seed: 8, numRuns: cases({ all: 60, usual: 20 }) },
    );
  });
});

describe('parts to carry', () => {
  it('is the best of all selections', () => {
    const random = seededRandom(9);
    for (let run = 0; run < 30; run++) {
      const worlds = [[0], [1], [2], [0, 1]].map((faults) => ({ faults, probability: 0.25 }));
      const needs = Array.from({ length: 5 }, () =>
        [0, 1, 2].map(() => (random() < 0.5 ? random() : 0)),
      );
      const parts = needs.map((byPlace, i): Part => {
        const neededChance = (faults: readonly number[]) =>
          1 - faults.reduce((none, place) => none * (1 - byPlace[place]!), 1);
        return { id: `${i}`, carryMinutes: 30 * random(), neededChance };
      });
      const minutes = (isCarried: (i: number) => boolean) =>
        parts.reduce((sum, part, i) => sum + (isCarried(i) ? part.carryMinutes : 0), 0) +
        80 *
          worlds.reduce((sum, { faults, probability }) => {
            const none = parts.reduce(
              (product, part, i) => product * (isCarried(i) ? 1 : 1 - part.neededChance(faults)),
              1,
            );
            return sum + probability * (1 - none);
          }, 0);
      const best = Math.min(
        ...Array.from({ length: 32 }, (_, bits) => minutes((i) => ((bits >> i) & 1) === 1)),
      );
      const chosen = partsToCarry(worlds, parts, 80).parts;
      expect(minutes((i) => chosen.find(({ id }) => id === `${i}`)!.isCarried)).toBeCloseTo(
        best,
        9,
      );
    }
  });
});
