import { beforeAll, describe, expect, it } from '@jest/globals';
import fc from 'fast-check';

import { mayVisit, planQuarterGreedily, quarterPlan } from '#app/dispatch/greedy-quarter.js';
import { highsSolver } from '#app/dispatch/highs-solver.js';
import type { LinearSolver } from '#app/dispatch/linear-solver.js';
import { proveQuarter } from '#app/dispatch/prove-quarter.js';
import { reasonQuarter } from '#app/dispatch/reason-quarter.js';
import type { PlacedVisit, QuarterProblem } from '#app/dispatch/quarter-problem.js';

import { randomQuarter } from './random-quarters.js';

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

  it('says of each visit what its best day and the next best place would weigh, tried one by one', () => {
    let onOther = 0;
    fc.assert(
      fc.property(randomQuarter({ visits: 6, technicians: 2, days: 5 }), (problem) => {
        const asked = problem.visits.map(({ days, notBy, skills, ...visit }, index) => {
          const wish = { pinnedTo: visit.pinnedTo ?? null, notBy, skills, notOn: [], on: null };
          return { index, openDays: days, on: null, notOn: [], wish: { ...wish, isLeft: false } };
        });
        const plan = reasonQuarter({ problem, asked, isQuick: true }, solve);
        expect(plan.bound).toBeLessThanOrEqual(proveQuarter(problem, solve).cost);
        for (const [index, here] of plan.placed.entries()) {
          const why = plan.why[index]!;
          const { idealDay } = problem.visits[here.visit]!;
          const elsewhere = movedTo(problem, plan.placed, here);
          const least = Math.min(...elsewhere.map(({ cost }) => cost));
          expect(why.instead?.extraCost ?? Infinity).toBe(least - plan.cost);
          const onIdeal = elsewhere.filter(({ day }) => day === idealDay);
          if (here.day === idealDay) {
            expect(why).toMatchObject({ idealConflicts: [] });
            expect(why.idealExtra).toBeUndefined();
          } else if (onIdeal.length > 0) {
            onOther += 1;
            const extra = Math.min(...onIdeal.map(({ cost }) => cost)) - plan.cost;
            expect(why).toMatchObject({ idealExtra: extra, idealConflicts: [] });
          } else {
            expect(why.idealConflicts.length).toBeGreaterThan(0);
          }
        }
      }),
      { seed: 56, numRuns: 40 },
    );
    expect(onOther).toBeGreaterThan(0);
  });
});

/** Every plan in which one visit alone is elsewhere, with what it weighs. */
function movedTo(problem: QuarterProblem, placed: readonly PlacedVisit[], here: PlacedVisit) {
  const others = placed.filter((one) => one !== here);
  return problem.visits[here.visit]!.days.flatMap((day) =>
    [...problem.technicians.keys()]
      .filter((technician) => technician !== here.technician || day !== here.day)
      .map((technician) => [...others, { visit: here.visit, technician, day }])
      .filter((moved) => broken(problem, moved).length === 0)
      .map((moved) => ({ day, cost: quarterPlan(problem, moved).cost })),
  );
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
