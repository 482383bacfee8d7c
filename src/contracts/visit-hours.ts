import type { FieldError } from '../shared/domain-error.js';
import type { PlannedTime } from '../visits/agreed-hours.js';
import type { Closing, CoverageWindow } from './coverage.js';

/** What of a visit's time was not agreed, by field: the day, or the hours of it. */
export function refuseVisitTime(
  { on, fromTime, untilTime }: PlannedTime,
  windows: readonly CoverageWindow[],
  closed: Readonly<Record<string, Closing>>,
): FieldError[] {
  const closing = closed[on];
  if (closing !== undefined) {
    const { why, name } = closing;
    const reason =
      why === 'public-holiday'
        ? `is a public holiday there (${name})`
        : `is closed there (${name})`;
    return [{ field: '/on', reason }];
  }
  const weekday = new Date(`${on}T00:00:00Z`).getUTCDay() || 7;
  const ofDay = windows.filter((window) => window.weekday === weekday);
  if (ofDay.length === 0) {
    return [{ field: '/on', reason: 'is a day of the week without agreed hours' }];
  }
  if (fromTime === null || untilTime === null) return [];
  if (ofDay.some(({ from, until }) => from <= fromTime && untilTime <= until)) return [];
  const hours = ofDay.map(({ from, until }) => `${from}–${until}`).join(', ');
  const field = ofDay.some(({ from, until }) => from <= fromTime && fromTime < until)
    ? '/untilTime'
    : '/fromTime';
  return [{ field, reason: `is outside the agreed hours ${hours}` }];
}
