import { CONDITIONS, type ErrorRates, INFORMANT_KINDS } from './error-rates.js';
import { InvalidPlan, type Plan } from './plan.js';

/** As decimals are written: a row of thirds given to nine digits is whole. */
const ROUNDING = 1e-8;

export const isChance = (value: number) => value >= 0 && value <= 1;

/** What is wrong with error rates: rows that are no distribution give answers that look right and are not. */
export function aboutErrorRates(errors: ErrorRates): string[] {
  return INFORMANT_KINDS.flatMap((kind) => {
    const { confused, missed = 0 } = errors[kind];
    const reasons = CONDITIONS.flatMap((condition) => {
      const row = errors[kind][condition];
      const sum = row.reduce((all, chance) => all + chance, 0);
      const what = `what ${kind} says of what is ${condition}`;
      if (row.length !== 3 || !row.every(isChance)) return [`${what} is not three chances`];
      return Math.abs(sum - 1) <= ROUNDING ? [] : [`${what} adds up to ${sum}, and not to 1`];
    });
    if (!isChance(confused)) reasons.push(`that ${kind} is confused is no chance`);
    if (!isChance(missed)) reasons.push(`what ${kind} misses is no chance`);
    return reasons;
  });
}

const checked = new WeakSet<ErrorRates>();

/**
 * Of a firm's own, which stand in for the plan's.
 * @throws InvalidPlan naming every row that is no distribution
 */
export function checkErrorRates(errors: ErrorRates, plan: Plan): void {
  if (checked.has(errors)) return;
  const reasons = aboutErrorRates(errors);
  if (reasons.length > 0) throw new InvalidPlan(plan.name, reasons);
  checked.add(errors);
}
