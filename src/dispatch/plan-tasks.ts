import type { Task } from '../compute/compute.service.js';
import type { DayProblem } from './day-problem.js';
import type { ReasonedDayPlan } from './reason-day.js';
import type { QuarterQuestion, ReasonedQuarterPlan } from './reason-quarter.js';

/** The best plan of a day, with its reasons. */
export const PLAN_DAY: Task<DayProblem, ReasonedDayPlan> = {
  file: new URL('./plan-day.worker.js', import.meta.url),
  errors: {},
  isSlow: true,
};

/** The best plan of a quarter, or how far it may be off, with its reasons. */
export const PLAN_QUARTER: Task<QuarterQuestion, ReasonedQuarterPlan> = {
  file: new URL('./plan-quarter.worker.js', import.meta.url),
  errors: {},
  isSlow: true,
};
