import type { Task } from '../compute/compute.service.js';
import type { DayProblem } from './day-problem.js';
import type { ReasonedDayPlan } from './reason-day.js';

/** The best plan of a day, with its reasons. */
export const PLAN_DAY: Task<DayProblem, ReasonedDayPlan> = {
  file: new URL('./plan-day.worker.js', import.meta.url),
  errors: {},
  isSlow: true,
};
