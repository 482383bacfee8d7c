import ICAL from 'ical.js';
import { type ClosedTime, MAX_CLOSED_TIMES, refuseClosedTime } from './closed-time.js';

/** An event that comes again for ever is taken so often at most. */
const OCCURRENCES = 200;

export type ReadCalendar = { times: ClosedTime[] } | { reason: string };

/**
 * The days that an iCalendar text (RFC 5545) names, such as a school's holidays: its events of whole days, with those that
 * come again. Events at times of day close no day and are left out.
 */
export function readCalendar(text: string): ReadCalendar {
  let events: ICAL.Component[];
  try {
    const calendar = new ICAL.Component(ICAL.parse(text) as [string, unknown[], unknown[]]);
    events = calendar.getAllSubcomponents('vevent');
    const times = events.flatMap((event) => timesOf(new ICAL.Event(event)));
    return times.length > MAX_CLOSED_TIMES
      ? { reason: `names ${times.length} times; at most ${MAX_CLOSED_TIMES} are taken` }
      : refuse(times);
  } catch (error) {
    return {
      reason: `is no iCalendar text: ${error instanceof Error ? error.message : 'unreadable'}`,
    };
  }
}

function refuse(times: ClosedTime[]): ReadCalendar {
  if (times.length === 0) return { reason: 'names no event of whole days' };
  for (const time of times) {
    const reason = refuseClosedTime(time);
    if (reason !== null) return { reason: `"${time.name}" from ${time.from} ${reason}` };
  }
  return { times: times.sort((one, other) => (one.from < other.from ? -1 : 1)) };
}

function timesOf(event: ICAL.Event): ClosedTime[] {
  if (!event.startDate.isDate) return [];
  const name = (event.summary || 'Closed').slice(0, 200);
  if (!event.isRecurring()) {
    return [{ from: event.startDate.toString(), until: event.endDate.toString(), name }];
  }
  const times: ClosedTime[] = [];
  const comes = event.iterator();
  while (times.length < OCCURRENCES) {
    const next = comes.next() as ICAL.Time | undefined;
    if (next === undefined) break;
    const { startDate, endDate } = event.getOccurrenceDetails(next) as {
      startDate: ICAL.Time;
      endDate: ICAL.Time;
    };
    times.push({ from: startDate.toString(), until: endDate.toString(), name });
  }
  return times;
}
