import type { DayProblem } from './day-problem.js';
import type { LinearSolver } from './linear-solver.js';
import { type BoundedDayPlan, proveDay } from './prove-day.js';
import { roadMinutes, type WhyHere, whyHere, type WhyUndone, whyUndone } from './why-here.js';

/** A plan with why each job is where it is, and what stands against those that are left. */
export interface ReasonedDayPlan extends BoundedDayPlan {
  why: WhyHere[];
  whyUndone: WhyUndone[];
  roadMinutes: number;
}

/** The best plan of a day, or the best found with its bound, and its reasons. */
export function reasonDay(problem: DayProblem, solve: LinearSolver): ReasonedDayPlan {
  const plan = proveDay(problem, solve);
  return {
    ...plan,
    why: whyHere(problem, plan),
    whyUndone: whyUndone(problem, plan),
    roadMinutes: roadMinutes(problem, plan),
  };
}
