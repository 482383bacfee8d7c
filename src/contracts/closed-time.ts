import { Temporal } from 'temporal-polyfill';
import type { Closing } from './coverage.js';

/** So many of one calendar at most. */
export const MAX_CLOSED_TIMES = 500;

/** Longer than this is a mistake in the dates. */
const LONGEST_CLOSED_DAYS = 400;

/** Days on end on which something is closed. */
export interface ClosedTime {
  /** The first day. */
  from: string;
  /** The day after the last. */
  until: string;
  name: string;
}

/** What is wrong with a closed time; null: nothing. */
export function refuseClosedTime({ from, until }: ClosedTime): string | null {
  if (until <= from) return 'ends before it begins';
  const days = (Date.parse(until) - Date.parse(from)) / 86_400_000;
  return days > LONGEST_CLOSED_DAYS ? `is longer than ${LONGEST_CLOSED_DAYS} days` : null;
}

/** The closed days one by one; of two causes for a day the one that comes first. */
export function closedByDay(
  times: readonly (ClosedTime & { why: Closing['why'] })[],
): Record<string, Closing> {
  const closed: Record<string, Closing> = {};
  for (const { from, until, why, name } of times) {
    const end = Temporal.PlainDate.from(until);
    let day = Temporal.PlainDate.from(from);
    for (; Temporal.PlainDate.compare(day, end) < 0; day = day.add({ days: 1 })) {
      closed[day.toString()] ??= { why, name };
    }
  }
  return closed;
}
