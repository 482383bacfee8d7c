import type { Task } from '../compute/compute.service.js';
import type { DayProblem } from './day-problem.js';
import type { BoundedQuarterPlan } from './prove-quarter.js';
import type { QuarterProblem } from './quarter-problem.js';
import type { ReasonedDayPlan } from './reason-day.js';

/** The best plan of a day, with its reasons. */
export const PLAN_DAY: Task<DayProblem, ReasonedDayPlan> = {
  file: new URL('./plan-day.worker.js', import.meta.url),
  errors: {},
  isSlow: true,
};

/** The best plan of a quarter, or how far it may be off. */
export const PLAN_QUARTER: Task<QuarterProblem, BoundedQuarterPlan> = {
  file: new URL('./plan-quarter.worker.js', import.meta.url),
  errors: {},
  isSlow: true,
};
