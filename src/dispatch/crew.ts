import type { DayProblem, DayTechnician } from './day-problem.js';
import { costOfWho, mayDo } from './day-route.js';

/** Technicians who are all the same to the plan: who of them goes is decided afterwards. */
export interface Crew {
  /** By their index. */
  technicians: readonly number[];
  /** One of them. */
  technician: DayTechnician;
  /** The jobs that each of them may do, by index. */
  jobs: readonly number[];
}

/** Technicians put together by what a plan sees of them, so that it is not searched once for each order of equals. */
export function crewsOf(problem: DayProblem): Crew[] {
  const crews = new Map<string, { technicians: number[]; crew: Omit<Crew, 'technicians'> }>();
  for (const [index, technician] of problem.technicians.entries()) {
    const jobs = [...problem.jobs.keys()].filter((job) => {
      const wanted = problem.jobs[job];
      return wanted !== undefined && mayDo(wanted, technician);
    });
    const { fromMinute, toMinute, startPlace, endPlace } = technician;
    const costs = problem.jobs.map((job) => costOfWho(problem, job, technician));
    const key = JSON.stringify([fromMinute, toMinute, startPlace, endPlace, jobs, costs]);
    const known = crews.get(key);
    if (known === undefined) crews.set(key, { technicians: [index], crew: { technician, jobs } });
    else known.technicians.push(index);
  }
  return [...crews.values()].map(({ technicians, crew }) => ({ technicians, ...crew }));
}
