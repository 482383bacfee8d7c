import type { InformantErrors, InformantKind } from '../../plan/error-rates.js';
import type { HeadEndSetting } from '../../plan/modes.js';
import type { Plan } from '../../plan/plan.js';
import { headEndEffect, type PlanTables } from '../../plan/plan-tables.js';

// P(outcome | truth) of what is not a function: invented starting values, to be replaced by a firm's own record.

/** By truth, then by outcome. */
export type OutcomeRows = readonly (readonly number[])[];

/**
 * Whether the informant says that a setting is right (first outcome) or wrong, where it is right (first row) or the
 * head-end is in the mode looked for.
 */
export function settingRows(
  plan: PlanTables,
  setting: HeadEndSetting,
  errors: InformantErrors,
): OutcomeRows {
  const alarm = errors.good[2];
  const { group } = headEndEffect(plan, setting);
  const { headEnd, headEndOfGroup } = plan.plan;
  const { shown: share = 0 } =
    group === null
      ? (headEnd[setting] ?? {})
      : (headEndOfGroup[setting.slice(0, -group.length - 1)] ?? {});
  const shown = share * errors.dead[2] + (1 - share) * alarm;
  return [
    [1 - alarm, alarm],
    [1 - shown, shown],
  ];
}

/**
 * A supply voltage read as full, weak or dead (fault model, section 6): a hundredth of wrong terminals and ranges, and a
 * weak feed lies anywhere between, a twentieth of it so near to either end that it reads as that.
 */
export const VOLTS_ROWS: OutcomeRows = [
  [0.99, 0.005, 0.005],
  [0.05, 0.9, 0.05],
  [0.005, 0.005, 0.99],
];

/** Continuity that passes, where all cores go through or one does not: said wrongly once in 200 (locate, wire form). */
export const CONTINUITY_ROWS: OutcomeRows = [
  [0.995, 0.005],
  [0.005, 0.995],
];

/** A part looked at that is found sound or faulty, where it is sound or not, nothing making it harder to see. */
export function lookRows(
  plan: Plan,
  kind: InformantKind,
  { missed }: InformantErrors,
): OutcomeRows {
  const { missed: usual, false: alarm } = plan.looks[kind];
  const unseen = missed ?? usual;
  return [
    [1 - alarm, alarm],
    [unseen, 1 - unseen],
  ];
}
