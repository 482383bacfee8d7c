import type { ReadClosedDays } from '../../parts/wire.js';
import { dayBeside } from '../days/day-lanes.js';

export type ClosedTimes = ReadClosedDays['times'];

/** A calendar as it is typed. */
export interface ClosedDaysDraft {
  name: string;
  /** Of an iCalendar file. */
  text: string;
  times: ClosedTimes;
  /** Days that are typed and not added yet; the last one is closed too. */
  first: string;
  last: string;
  what: string;
}

export function closedDaysDraft(calendar?: ReadClosedDays): ClosedDaysDraft {
  const { name = '', times = [] } = calendar ?? {};
  return { name, times, text: '', first: '', last: '', what: '' };
}

/** What is wrong with days typed by hand: no first one, or the last before it. */
export function refuseDays({
  first,
  last,
}: Pick<ClosedDaysDraft, 'first' | 'last'>): 'noFirst' | 'lastBefore' | undefined {
  if (first === '') return 'noFirst';
  return last !== '' && last < first ? 'lastBefore' : undefined;
}

/** With the days that are typed among the others, in order; without a last day it is one. */
export function withDays(draft: ClosedDaysDraft, untitled: string): ClosedDaysDraft {
  const { first, last, what, times } = draft;
  const until = dayBeside(last === '' ? first : last, 1);
  const added = { from: first, until, name: what.trim() || untitled };
  const all = [...times, added].sort((one, other) => (one.from < other.from ? -1 : 1));
  return { ...draft, times: all, first: '', last: '', what: '' };
}

/** How many days are closed; one that is closed twice is one. */
export function countDays(times: ClosedTimes): number {
  const days = new Set<string>();
  for (const { from, until } of times) {
    for (let day = from; day < until; day = dayBeside(day, 1)) days.add(day);
  }
  return days.size;
}
