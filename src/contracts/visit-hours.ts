import type { FieldError } from '../shared/domain-error.js';
import type { PlannedTime } from '../visits/agreed-hours.js';
import type { Closing, CoverageWindow } from './coverage.js';

/** What of a visit's time was not agreed, by field: the day, or the hours of it. */
export function refuseVisitTime(
  { on, fromTime, untilTime }: PlannedTime,
  windows: readonly CoverageWindow[],
  closed: Readonly<Record<string, Closing>>,
): FieldError[] {
  const meant = '; if it is agreed all the same, send `confirmed` with outside-hours';
  const closing = closed[on];
  if (closing !== undefined) {
    return [{ field: '/on', reason: `is closed there (${closing.name})${meant}` }];
  }
  const weekday = new Date(`${on}T00:00:00Z`).getUTCDay() || 7;
  const ofDay = windows.filter((window) => window.weekday === weekday);
  if (ofDay.length === 0) {
    return [{ field: '/on', reason: `is a day of the week without hours for visits${meant}` }];
  }
  if (fromTime === null || untilTime === null) return [];
  if (ofDay.some(({ from, until }) => from <= fromTime && untilTime <= until)) return [];
  const hours = ofDay.map(({ from, until }) => `${from}–${until}`).join(', ');
  const field = ofDay.some(({ from, until }) => from <= fromTime && fromTime < until)
    ? '/untilTime'
    : '/fromTime';
  return [{ field, reason: `is outside the agreed hours ${hours}${meant}` }];
}
