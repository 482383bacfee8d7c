import { DEFAULT_PLAN } from '../../plan/default-plan.js';
import { type PlanTables, tablesOf } from '../../plan/plan-tables.js';
import type { LocateRequest } from './locate-request.js';

/** The kind of system that a request is about. */
export function planOf({ plan = DEFAULT_PLAN }: Pick<LocateRequest, 'plan'>): PlanTables {
  return tablesOf(plan);
}
