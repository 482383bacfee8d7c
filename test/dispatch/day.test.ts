import { beforeAll, describe, expect, it } from '@jest/globals';
import fc from 'fast-check';

import type { DayProblem } from '#app/dispatch/day-problem.js';
import { timeRoute } from '#app/dispatch/day-route.js';
import { dayPlan, planGreedily } from '#app/dispatch/greedy-day.js';
import { highsSolver } from '#app/dispatch/highs-solver.js';
import type { LinearSolver } from '#app/dispatch/linear-solver.js';
import { looseBound, proveDay } from '#app/dispatch/prove-day.js';

import { asDayProblem, PUBLISHED_DAYS } from './published-days.js';
import { randomDay } from './random-days.js';

const SMALL = { jobs: 5, technicians: 3 };

describe('the plan of a day', () => {
  let solve: LinearSolver;

  beforeAll(async () => {
    solve = await highsSolver();
  });

  it('is the best of all, tried one by one', () => {
    fc.assert(
      fc.property(randomDay(SMALL), (problem) => {
        const plan = proveDay(problem, solve);
        expect(plan.cost).toBe(leastOfAll(problem));
        expect(plan.bound).toBe(plan.cost);
      }),
      { seed: 51, numRuns: 25 },
    );
  });

  it('does each job once at most, only by whom may, and within the hours', () => {
    fc.assert(
      fc.property(randomDay({ jobs: 12, technicians: 3 }), (problem) => {
        const greedy = planGreedily(problem);
        const proven = proveDay(problem, solve);
        for (const { routes, undone, cost } of [greedy, proven]) {
          const done = routes.flatMap(({ jobs }) => jobs);
          expect([...done, ...undone].sort((a, b) => a - b)).toEqual([...problem.jobs.keys()]);
          expect(dayPlan(problem, routes, undone).cost).toBe(cost);
        }
        expect(proven.cost).toBeLessThanOrEqual(greedy.cost);
        expect(proven.bound).toBeLessThanOrEqual(proven.cost);
        expect(looseBound(problem)).toBeLessThanOrEqual(proven.cost);
      }),
      { seed: 52, numRuns: 15 },
    );
  });

  it.each(PUBLISHED_DAYS.slice(0, 1))('reaches the published optimum of $name', (published) => {
    const plan = proveDay(asDayProblem(published), solve);
    expect(plan).toMatchObject({ cost: Math.round(published.optimum * 10), undone: [] });
    expect(plan.bound).toBe(plan.cost);
  });

  it('is there for a day with nothing to do, and for one on which nobody works', () => {
    const [published] = PUBLISHED_DAYS;
    const problem = asDayProblem(published!);
    const idle = proveDay({ ...problem, jobs: [] }, solve);
    expect(idle).toMatchObject({ routes: [], undone: [], cost: 0, bound: 0 });
    const one = problem.jobs.slice(0, 1);
    const alone = proveDay({ ...problem, jobs: one, technicians: [] }, solve);
    expect(alone).toMatchObject({ routes: [], undone: [0], cost: one[0]!.undoneCost });
    expect(alone.bound).toBe(alone.cost);
  });

  it('is there without a proof where the day is too large for one, and says how far it may be off', () => {
    const [published] = PUBLISHED_DAYS;
    const { jobs, ...rest } = asDayProblem(published!);
    const twice = {
      ...rest,
      jobs: [...jobs, ...jobs.map((job) => ({ ...job, id: `${job.id}b` }))],
    };
    const plan = proveDay(twice, solve);
    expect(plan.cost).toBe(planGreedily(twice).cost);
    expect(plan.bound).toBe(looseBound(twice));
    expect(plan.bound).toBeLessThan(plan.cost);
  });
});

/** By trying every order of every share-out: the slow oracle. What may be missing in vans it adds up by itself. */
function leastOfAll(problem: DayProblem): number {
  const jobs = problem.jobs.map(({ secondTripCost: _vans, ...job }) => job);
  const withoutVans = { ...problem, jobs };
  const routes = problem.technicians.map((): number[] => []);
  const price = () =>
    routes.reduce((sum, order, index) => {
      const technician = problem.technicians[index]!;
      const missing = order.map((job) => problem.jobs[job]!.secondTripCost?.[technician.id] ?? 0);
      const cost = timeRoute(withoutVans, technician, order)?.cost ?? Infinity;
      return missing.reduce((all, one) => all + one, sum + cost);
    }, 0);
  const next = (job: number, undone: number): number => {
    if (job === problem.jobs.length) return undone + price();
    let least = next(job + 1, undone + problem.jobs[job]!.undoneCost);
    for (const order of routes) {
      for (let at = 0; at <= order.length; at += 1) {
        order.splice(at, 0, job);
        least = Math.min(least, next(job + 1, undone));
        order.splice(at, 1);
      }
    }
    return least;
  };
  return next(0, 0);
}
