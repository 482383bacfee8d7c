import type { DayJob, DayProblem, DayTechnician } from './day-problem.js';
import {
  beginsAt,
  type Coming,
  deviationOf,
  expectedLateMinutes,
  type JobRisk,
  riskOf,
  varianceAfter,
} from './late-risk.js';

/** When a technician comes to a job, begins and has done it, as long as all takes what is expected. */
export interface TimedJob extends Coming, JobRisk {
  job: number;
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

/** Minutes beyond what was promised when it begins at a minute and takes as long as is expected. */
export function lateMinutes(job: DayJob, begins: number): number {
  const response = begins - (job.respondBy ?? Infinity);
  const restore = begins + job.minutes - (job.restoreBy ?? Infinity);
  return Math.max(0, response) + Math.max(0, restore);
}

/** What is weighed of doing a job when somebody comes to it then, travel aside: a whole number. */
export function jobCost(
  problem: DayProblem,
  job: DayJob,
  technician: DayTechnician,
  coming: Coming,
): number {
  const waited = Math.max(0, beginsAt(job, coming.arrives) - problem.waitsFrom);
  const late = Math.round(expectedLateMinutes(job, coming) * job.latePerMinute);
  return late + waited * job.waitPerMinute + costOfWho(problem, job, technician);
}

/** What it weighs who does a job, whenever: somebody else than people know already, or without a part that may be needed. */
export function costOfWho(problem: DayProblem, job: DayJob, { id }: DayTechnician): number {
  const change = (job.plannedBefore ?? id) === id ? 0 : problem.movedCost;
  return change + (job.secondTripCost?.[id] ?? 0);
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
  let variance = 0;
  let cost = 0;
  for (const index of order) {
    const job = problem.jobs[index];
    if (job === undefined || !mayDo(job, technician)) return undefined;
    const travelMinutes = travel(problem, place, job.place);
    const coming = { arrives: at + travelMinutes, deviation: deviationOf(variance) };
    const begins = beginsAt(job, coming.arrives);
    const ends = begins + job.minutes;
    if (!(ends <= technician.toMinute)) return undefined;
    cost += travelMinutes + jobCost(problem, job, technician, coming);
    const risk = riskOf(job, coming);
    const late = lateMinutes(job, begins);
    jobs.push({ job: index, ...coming, begins, ends, travelMinutes, lateMinutes: late, ...risk });
    variance = varianceAfter(job, coming, variance);
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
