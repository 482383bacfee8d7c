import type { DayJob, DayProblem, DayTechnician } from './day-problem.js';

/** When a technician comes to a job, begins and has done it. */
export interface TimedJob {
  job: number;
  arrives: number;
  begins: number;
  ends: number;
  travelMinutes: number;
  /** Minutes beyond what was promised, of being there and of its working again together. */
  lateMinutes: number;
}

export interface TimedRoute {
  jobs: readonly TimedJob[];
  /** Back at the end place; the last job's end where there is none. */
  endsDay: number;
  cost: number;
}

/** Whether somebody may do a job at all: skills, who was named for it, who was ruled out. */
export function mayDo(job: DayJob, technician: DayTechnician): boolean {
  return (
    (job.pinnedTo ?? technician.id) === technician.id &&
    !job.notBy.includes(technician.id) &&
    job.skills.every((skill) => technician.skills.includes(skill))
  );
}

/** The first minute from `arrives` on at which a job may begin; infinite where its windows are over. */
export function beginsAt(job: DayJob, arrives: number): number {
  if (job.windows.length === 0) return arrives;
  const window = job.windows.find(({ to }) => to >= arrives);
  return window === undefined ? Infinity : Math.max(window.from, arrives);
}

/** Minutes beyond what was promised when it begins at a minute. */
export function lateMinutes(job: DayJob, begins: number): number {
  const response = begins - (job.respondBy ?? Infinity);
  const restore = begins + job.minutes - (job.restoreBy ?? Infinity);
  return Math.max(0, response) + Math.max(0, restore);
}

/** What is weighed of doing a job when it begins then, travel aside. */
export function jobCost(
  problem: DayProblem,
  job: DayJob,
  technician: DayTechnician,
  begins: number,
): number {
  const moved = job.plannedBefore !== undefined && job.plannedBefore !== technician.id;
  const waited = Math.max(0, begins - problem.waitsFrom) * job.waitPerMinute;
  return lateMinutes(job, begins) * job.latePerMinute + waited + (moved ? problem.movedCost : 0);
}

/**
 * The day of a technician who does jobs in this order, each as early as can be (later is never better: nothing weighs less
 * when it begins later). Undefined where somebody may not do one of them, a window is over or the day is.
 */
export function timeRoute(
  problem: DayProblem,
  technician: DayTechnician,
  order: readonly number[],
): TimedRoute | undefined {
  const jobs: TimedJob[] = [];
  let at = technician.fromMinute;
  let place = technician.startPlace;
  let cost = 0;
  for (const index of order) {
    const job = problem.jobs[index];
    if (job === undefined || !mayDo(job, technician)) return undefined;
    const travelMinutes = travel(problem, place, job.place);
    const arrives = at + travelMinutes;
    const begins = beginsAt(job, arrives);
    const ends = begins + job.minutes;
    if (!(ends <= technician.toMinute)) return undefined;
    cost += travelMinutes + jobCost(problem, job, technician, begins);
    const late = lateMinutes(job, begins);
    jobs.push({ job: index, arrives, begins, ends, travelMinutes, lateMinutes: late });
    at = ends;
    place = job.place;
  }
  if (jobs.length > 0 && technician.endPlace !== undefined) {
    const back = travel(problem, place, technician.endPlace);
    at += back;
    cost += back;
  }
  return at <= technician.toMinute ? { jobs, endsDay: at, cost } : undefined;
}

export function travel(problem: DayProblem, from: number, to: number): number {
  const minutes = problem.travelMinutes[from]?.[to];
  if (minutes === undefined) throw new RangeError(`no travel time from place ${from} to ${to}`);
  return minutes;
}
