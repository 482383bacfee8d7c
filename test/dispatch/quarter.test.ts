import { beforeAll, describe, expect, it } from '@jest/globals';
import fc from 'fast-check';

import { mayVisit, planQuarterGreedily, quarterPlan } from '#app/dispatch/greedy-quarter.js';
import { highsSolver } from '#app/dispatch/highs-solver.js';
import type { LinearSolver } from '#app/dispatch/linear-solver.js';
import { proveQuarter } from '#app/dispatch/prove-quarter.js';
import type { PlacedVisit, QuarterProblem } from '#app/dispatch/quarter-problem.js';

const AREAS = 2;

describe('the plan of a quarter', () => {
  let solve: LinearSolver;

  beforeAll(async () => {
    solve = await highsSolver();
  });

  it('is the best of all, tried one by one', () => {
    fc.assert(
      fc.property(randomQuarter({ visits: 4, technicians: 2, days: 4 }), (problem) => {
        const plan = proveQuarter(problem, solve);
        expect(plan.cost).toBe(leastOfAll(problem));
        expect(plan.bound).toBe(plan.cost);
        expect(quarterPlan(problem, plan.placed)).toMatchObject({ cost: plan.cost });
      }),
      { seed: 53, numRuns: 30 },
    );
  });

  it('keeps to the days, to who may and to the hours', () => {
    fc.assert(
      fc.property(randomQuarter({ visits: 12, technicians: 2, days: 10 }), (problem) => {
        const greedy = planQuarterGreedily(problem);
        const proven = proveQuarter(problem, solve);
        for (const { placed } of [greedy, proven]) expect(broken(problem, placed)).toEqual([]);
        expect(proven.cost).toBeLessThanOrEqual(greedy.cost);
        expect(proven.bound).toBeLessThanOrEqual(proven.cost);
      }),
      { seed: 54, numRuns: 10 },
    );
  });

  it('is the greedy one, with its bound, where the solver finds none', () => {
    fc.assert(
      fc.property(randomQuarter({ visits: 6, technicians: 2, days: 6 }), (problem) => {
        const greedy = planQuarterGreedily(problem);
        const { bound, ...plan } = proveQuarter(problem, () => undefined);
        expect(plan).toEqual(greedy);
        expect(bound).toBeLessThanOrEqual(proveQuarter(problem, solve).cost);
      }),
      { seed: 55, numRuns: 10 },
    );
  });
});

function randomQuarter(most: {
  visits: number;
  technicians: number;
  days: number;
}): fc.Arbitrary<QuarterProblem> {
  const day = fc.integer({ min: 0, max: most.days - 1 });
  const technicians = Array.from({ length: most.technicians }, (_, index) => `technician ${index}`);
  const visit = fc.record(
    {
      area: fc.integer({ min: 0, max: AREAS - 1 }),
      minutes: fc.integer({ min: 30, max: 240 }),
      idealDay: day,
      days: fc.uniqueArray(day, { maxLength: most.days }).map((days) => days.sort((a, b) => a - b)),
      skills: fc.subarray(['ladder']),
      dayCost: fc.integer({ min: 1, max: 10 }),
      undoneCost: fc.integer({ min: 50, max: 500 }),
      pinnedTo: fc.constantFrom(...technicians),
      notBy: fc.subarray(technicians, { maxLength: 1 }),
    },
    {
      requiredKeys: [
        'area',
        'minutes',
        'idealDay',
        'days',
        'skills',
        'dayCost',
        'undoneCost',
        'notBy',
      ],
    },
  );
  return fc.record({
    visits: fc
      .array(visit, { minLength: 1, maxLength: most.visits })
      .map((visits) => visits.map((one, index) => ({ ...one, id: `visit ${index}` }))),
    technicians: fc.tuple(
      ...technicians.map((id, index) =>
        fc.record({
          id: fc.constant(id),
          skills: fc.constant(index === 0 ? ['ladder'] : []),
          minutesOfDay: fc.array(fc.constantFrom(0, 240, 480), {
            minLength: most.days,
            maxLength: most.days,
          }),
        }),
      ),
    ),
    areaMinutes: fc.array(fc.integer({ min: 0, max: 90 }), {
      minLength: AREAS,
      maxLength: AREAS,
    }),
  });
}

/** What a plan does that it must not, in words. */
function broken(problem: QuarterProblem, placed: readonly PlacedVisit[]): string[] {
  const minutes = new Map<string, number>();
  const ways = new Set<string>();
  const wrong: string[] = [];
  for (const { visit, technician, day } of placed) {
    const wanted = problem.visits[visit]!;
    const who = problem.technicians[technician]!;
    if (!wanted.days.includes(day)) wrong.push(`${wanted.id} on day ${day}`);
    if (!mayVisit(wanted, who)) wrong.push(`${wanted.id} by ${who.id}`);
    const key = `${technician} ${day}`;
    const way = ways.has(`${key} ${wanted.area}`) ? 0 : problem.areaMinutes[wanted.area]!;
    ways.add(`${key} ${wanted.area}`);
    minutes.set(key, (minutes.get(key) ?? 0) + wanted.minutes + way);
    if (minutes.get(key)! > who.minutesOfDay[day]!) wrong.push(`too long a day ${key}`);
  }
  return wrong;
}

/** By trying every day and technician of every visit: the slow oracle. */
function leastOfAll(problem: QuarterProblem): number {
  const next = (visit: number, placed: readonly PlacedVisit[]): number => {
    if (visit === problem.visits.length) {
      return broken(problem, placed).length > 0 ? Infinity : quarterPlan(problem, placed).cost;
    }
    let least = next(visit + 1, placed);
    for (const technician of problem.technicians.keys()) {
      for (const day of problem.visits[visit]!.days) {
        least = Math.min(least, next(visit + 1, [...placed, { visit, technician, day }]));
      }
    }
    return least;
  };
  return next(0, []);
}
