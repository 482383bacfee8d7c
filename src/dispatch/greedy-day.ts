import type { DayPlan, DayProblem, DayRoute } from './day-problem.js';
import { timeRoute } from './day-route.js';

/** Improvements are looked for so often at most; each goes once through all jobs. */
const ROUNDS = 50;

interface Insertion {
  technician: number;
  jobs: readonly number[];
  extra: number;
}

/**
 * A plan that is always there: what is promised earliest goes first where it costs least, then single jobs are taken out and put
 * back where they cost less, and pairs of jobs change places, as long as that helps. No proof of how good it is.
 */
export function planGreedily(problem: DayProblem): DayPlan {
  let routes: DayRoute[] = problem.technicians.map((_, technician) => ({ technician, jobs: [] }));
  let undone: number[] = byUrgency(problem);
  for (let round = 0; round < ROUNDS; round += 1) {
    const before = dayPlan(problem, routes, undone).cost;
    ({ routes, undone } = insertAll(problem, routes, undone));
    for (let job = 0; job < problem.jobs.length; job += 1) {
      ({ routes, undone } = putBackBetter(problem, routes, undone, job));
    }
    routes = exchangePairs(problem, routes);
    if (dayPlan(problem, routes, undone).cost >= before) break;
  }
  return dayPlan(problem, routes, undone);
}

/** Routes with what they weigh. Throws a RangeError when one of them cannot be driven. */
export function dayPlan(
  problem: DayProblem,
  routes: readonly DayRoute[],
  undone: readonly number[],
): DayPlan {
  let cost = 0;
  for (const route of routes) cost += routeCost(problem, route.technician, route.jobs);
  if (!Number.isFinite(cost)) throw new RangeError('a route of the plan cannot be driven');
  for (const job of undone) cost += problem.jobs[job]?.undoneCost ?? 0;
  return {
    routes: routes.filter(({ jobs }) => jobs.length > 0),
    undone: undone.toSorted((a, b) => a - b),
    cost,
  };
}

function byUrgency({ jobs }: DayProblem): number[] {
  const promised = (index: number) =>
    Math.min(jobs[index]?.respondBy ?? Infinity, jobs[index]?.restoreBy ?? Infinity);
  return jobs
    .map((_, index) => index)
    .sort((a, b) => Math.sign(promised(a) - promised(b)) || a - b);
}

function routeCost(problem: DayProblem, technician: number, order: readonly number[]): number {
  const who = problem.technicians[technician];
  return (who && timeRoute(problem, who, order)?.cost) ?? Infinity;
}

function insertAll(problem: DayProblem, routes: DayRoute[], undone: readonly number[]) {
  const left: number[] = [];
  for (const job of undone) {
    const best = cheapest(problem, routes, job);
    if (best === undefined || best.extra >= (problem.jobs[job]?.undoneCost ?? 0)) left.push(job);
    else routes = withRoute(routes, best);
  }
  return { routes, undone: left };
}

function putBackBetter(
  problem: DayProblem,
  routes: DayRoute[],
  undone: number[],
  job: number,
): { routes: DayRoute[]; undone: number[] } {
  const at = routes.find(({ jobs }) => jobs.includes(job));
  if (at === undefined) return { routes, undone };
  const jobs = at.jobs.filter((other) => other !== job);
  const saved =
    routeCost(problem, at.technician, at.jobs) - routeCost(problem, at.technician, jobs);
  const without = withRoute(routes, { technician: at.technician, jobs });
  const best = cheapest(problem, without, job);
  const undoneCost = problem.jobs[job]?.undoneCost ?? 0;
  if (saved > undoneCost && undoneCost <= (best?.extra ?? Infinity)) {
    return { routes: without, undone: [...undone, job] };
  }
  return best !== undefined && best.extra < saved
    ? { routes: withRoute(without, best), undone }
    : { routes, undone };
}

/** Where a job costs least, the first of equals. */
function cheapest(
  problem: DayProblem,
  routes: readonly DayRoute[],
  job: number,
): Insertion | undefined {
  let best: Insertion | undefined;
  for (const { technician, jobs } of routes) {
    const before = routeCost(problem, technician, jobs);
    for (let at = 0; at <= jobs.length; at += 1) {
      const tried = jobs.toSpliced(at, 0, job);
      const extra = routeCost(problem, technician, tried) - before;
      if (extra < (best?.extra ?? Infinity)) best = { technician, jobs: tried, extra };
    }
  }
  return best;
}

function exchangePairs(problem: DayProblem, routes: DayRoute[]): DayRoute[] {
  for (let a = 0; a < problem.jobs.length; a += 1) {
    for (let b = a + 1; b < problem.jobs.length; b += 1) {
      const changed = routes.filter(({ jobs }) => jobs.includes(a) || jobs.includes(b));
      if (changed.length === 0) continue;
      const swapped = changed.map(({ technician, jobs }) => ({
        technician,
        jobs: jobs.map((job) => (job === a ? b : job === b ? a : job)),
      }));
      const both = [a, b].every((job) => changed.some(({ jobs }) => jobs.includes(job)));
      if (both && total(problem, swapped) < total(problem, changed)) {
        for (const route of swapped) routes = withRoute(routes, route);
      }
    }
  }
  return routes;
}

function total(problem: DayProblem, routes: readonly DayRoute[]): number {
  return routes.reduce(
    (sum, { technician, jobs }) => sum + routeCost(problem, technician, jobs),
    0,
  );
}

function withRoute(routes: readonly DayRoute[], { technician, jobs }: DayRoute): DayRoute[] {
  return routes.map((route) => (route.technician === technician ? { technician, jobs } : route));
}
