/**
 * For so many days after hands were on it a component fails so many times as often. Invented starting values, to be
 * replaced by a firm's own record.
 */
export const RAISED_FOR_DAYS = 30;
export const RAISED_TIMES = 10;

/**
 * The days that a mode was exposed for, those of them that lie within RAISED_FOR_DAYS from when the component was last touched
 * counted RAISED_TIMES. `touchedDaysAgo` undefined: not known to have been touched.
 */
export function raisedDays(days: number, touchedDaysAgo: number | undefined): number {
  if (touchedDaysAgo === undefined) return days;
  const from = Math.min(days, touchedDaysAgo);
  const until = Math.max(0, touchedDaysAgo - RAISED_FOR_DAYS);
  return days + (RAISED_TIMES - 1) * Math.max(0, from - until);
}
