/**
 * For so many days after hands were on it a component fails so many times as often. Invented starting values, to be
 * replaced by a firm's own record.
 */
export const RAISED_FOR_DAYS = 30;
export const RAISED_TIMES = 10;

/**
 * The days that a mode was exposed for, those since the component was last touched counted RAISED_TIMES if that was no
 * longer ago than RAISED_FOR_DAYS. `touchedDaysAgo` undefined: not known to have been touched.
 */
export function raisedDays(days: number, touchedDaysAgo: number | undefined): number {
  if (touchedDaysAgo === undefined || touchedDaysAgo > RAISED_FOR_DAYS) return days;
  return days + (RAISED_TIMES - 1) * Math.min(days, touchedDaysAgo);
}
