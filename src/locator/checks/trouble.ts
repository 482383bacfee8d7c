import type { CoreSet } from '../../plan/cores.js';
import type { FunctionSet } from '../../plan/functions.js';
import { headEndEffect, type PlanTables } from '../../plan/plan-tables.js';
import type { LocateRequest } from '../request/locate-request.js';
import type { CheckAction } from './check-action.js';

/** What was missed: other trunks and functions have faults of their own, which nobody asked about. */
export interface ToldTrouble {
  readonly trunks: ReadonlySet<string>;
  readonly functions: FunctionSet;
  /** That the functions missed need. */
  readonly cores: CoreSet;
}

/** Null where nothing was told that does not work. */
export function troubleOf(
  plan: PlanTables,
  { observations = [] }: LocateRequest,
): ToldTrouble | null {
  const missed = observations.filter(({ outcome }) => outcome !== 'works');
  if (missed.length === 0) return null;
  const functions = missed.map((one) => plan.functions.indexOf(one.function));
  return {
    trunks: new Set(missed.map(({ trunk }) => trunk)),
    functions: functions.reduce((set, func) => set | (1 << func), 0),
    cores: functions.reduce((set, func) => set | (plan.coresNeeded[func] ?? 0), 0),
  };
}

/**
 * Whether a check is about the trouble: on a trunk where something was missed, of a function that needs no other cores
 * than those missed, or of a setting that would silence one of them.
 */
export function isAbout(
  plan: PlanTables,
  trouble: ToldTrouble | null,
  action: CheckAction,
): boolean {
  if (trouble === null) return true;
  if (action.kind === 'head-end')
    return (headEndEffect(plan, action.setting).disables & trouble.functions) > 0;
  if (!trouble.trunks.has(action.trunk)) return false;
  if (!('function' in action)) return true;
  const needed = plan.coresNeeded[plan.functions.indexOf(action.function)] ?? 0;
  return (needed & ~trouble.cores) === 0;
}
