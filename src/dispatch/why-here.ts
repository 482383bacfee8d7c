import type { DayPlan, DayProblem, DayRoute } from './day-problem.js';
import { mayDo, timeRoute, type TimedJob, travel } from './day-route.js';

/** Why a job is with somebody: what the next best of the others would cost, and what stands against each. */
export interface WhyHere {
  job: number;
  technician: number;
  timed: TimedJob;
  /** Minutes until the first of the promises is broken; undefined without one, negative when it is. */
  spareMinutes?: number;
  /** The next best technician for it with the other jobs as they are, and how many minutes more that weighs. */
  instead?: { technician: number; extraCost: number };
}

/** What stands against somebody's doing a job that is left undone. */
export type Obstacle =
  | { kind: 'pinned-to-another' }
  | { kind: 'ruled-out' }
  | { kind: 'skills'; lacking: readonly string[] }
  /** Alone on an empty day it could not be done: its windows, or the day is too short. */
  | { kind: 'day-or-window' }
  /** There is no room left beside what is planned. */
  | { kind: 'no-room' }
  /** There is room, at a higher price than leaving it. */
  | { kind: 'price'; extraCost: number };

export interface WhyUndone {
  job: number;
  obstacles: readonly { technician: number; obstacle: Obstacle }[];
}

/** The reasons of a plan, job by job in the order of the routes. */
export function whyHere(problem: DayProblem, plan: DayPlan): WhyHere[] {
  const routes = allRoutes(problem, plan);
  return plan.routes.flatMap((route) => {
    const technician = problem.technicians[route.technician];
    const timed = technician && timeRoute(problem, technician, route.jobs);
    return (timed?.jobs ?? []).map((at): WhyHere => {
      const without = routes.map((other) =>
        other.technician === route.technician
          ? { ...other, jobs: other.jobs.filter((job) => job !== at.job) }
          : other,
      );
      const here = costOfRoute(problem, route) - costOfRoute(problem, without[route.technician]);
      // Without it the way to the others may be too long, where a way is a guess: they could not stay as they are.
      const instead = Number.isFinite(here)
        ? nextBest(problem, without, at.job, route.technician)
        : undefined;
      const spareMinutes = spare(problem, at);
      return {
        job: at.job,
        technician: route.technician,
        timed: at,
        ...(spareMinutes !== undefined && { spareMinutes }),
        ...(instead && {
          instead: { technician: instead.technician, extraCost: instead.extraCost - here },
        }),
      };
    });
  });
}

/** What stands against each technician for each job that is left undone. */
export function whyUndone(problem: DayProblem, plan: DayPlan): WhyUndone[] {
  const routes = allRoutes(problem, plan);
  return plan.undone.map((job) => ({
    job,
    obstacles: problem.technicians.map((_, technician) => ({
      technician,
      obstacle: obstacleOf(problem, routes, job, technician),
    })),
  }));
}

function obstacleOf(
  problem: DayProblem,
  routes: readonly DayRoute[],
  job: number,
  index: number,
): Obstacle {
  const wanted = problem.jobs[job];
  const technician = problem.technicians[index];
  if (wanted === undefined || technician === undefined) throw new RangeError(`no job ${job}`);
  if ((wanted.pinnedTo ?? technician.id) !== technician.id) return { kind: 'pinned-to-another' };
  if (wanted.notBy.includes(technician.id)) return { kind: 'ruled-out' };
  const lacking = wanted.skills.filter((skill) => !technician.skills.includes(skill));
  if (lacking.length > 0) return { kind: 'skills', lacking };
  if (timeRoute(problem, technician, [job]) === undefined) return { kind: 'day-or-window' };
  const best = cheapestIn(problem, routes[index], job);
  return best === Infinity ? { kind: 'no-room' } : { kind: 'price', extraCost: best };
}

function nextBest(
  problem: DayProblem,
  routes: readonly DayRoute[],
  job: number,
  besides: number,
): { technician: number; extraCost: number } | undefined {
  let best: { technician: number; extraCost: number } | undefined;
  for (const route of routes) {
    if (route.technician === besides) continue;
    const extraCost = cheapestIn(problem, route, job);
    if (extraCost < (best?.extraCost ?? Infinity)) {
      best = { technician: route.technician, extraCost };
    }
  }
  return best;
}

/** What a job adds to a route at its best position; infinite where it fits nowhere, or the route itself cannot be done. */
function cheapestIn(problem: DayProblem, route: DayRoute | undefined, job: number): number {
  const wanted = problem.jobs[job];
  const technician = problem.technicians[route?.technician ?? -1];
  if (!route || !wanted || !technician || !mayDo(wanted, technician)) return Infinity;
  const before = costOfRoute(problem, route);
  if (before === Infinity) return Infinity;
  const costs = Array.from({ length: route.jobs.length + 1 }, (_, at) =>
    costOfRoute(problem, { ...route, jobs: route.jobs.toSpliced(at, 0, job) }),
  );
  return Math.min(...costs) - before;
}

function costOfRoute(problem: DayProblem, route: DayRoute | undefined): number {
  const technician = problem.technicians[route?.technician ?? -1];
  const timed = route && technician && timeRoute(problem, technician, route.jobs);
  return timed?.cost ?? Infinity;
}

/** One route for each technician, by index, empty where the plan has none. */
function allRoutes(problem: DayProblem, plan: DayPlan): DayRoute[] {
  return problem.technicians.map(
    (_, technician) =>
      plan.routes.find((route) => route.technician === technician) ?? { technician, jobs: [] },
  );
}

function spare(problem: DayProblem, { job, begins, ends }: TimedJob): number | undefined {
  const { respondBy, restoreBy } = problem.jobs[job] ?? {};
  if (respondBy === undefined && restoreBy === undefined) return undefined;
  return Math.min((respondBy ?? Infinity) - begins, (restoreBy ?? Infinity) - ends);
}

/** Minutes on the road of a whole plan. */
export function roadMinutes(problem: DayProblem, plan: DayPlan): number {
  return plan.routes.reduce((sum, route) => {
    const technician = problem.technicians[route.technician];
    const timed = technician && timeRoute(problem, technician, route.jobs);
    const last = timed?.jobs.at(-1);
    const place = problem.jobs[last?.job ?? -1]?.place;
    const home =
      technician?.endPlace === undefined || place === undefined
        ? 0
        : travel(problem, place, technician.endPlace);
    return sum + (timed?.jobs ?? []).reduce((all, job) => all + job.travelMinutes, 0) + home;
  }, 0);
}
