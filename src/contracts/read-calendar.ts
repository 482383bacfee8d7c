import ICAL from 'ical.js';
import { RRuleTemporal } from 'rrule-temporal';
import { Temporal } from 'temporal-polyfill';
import { linesOfEvents, whereUnreadable } from './calendar-lines.js';
import { type ClosedTime, MAX_CLOSED_TIMES, refuseClosedTime } from './closed-time.js';

/** An event that comes again for ever is taken so often at least, and so many years ahead at least. */
const OCCURRENCES = 200;
const YEARS_AHEAD = 3;
/** One that had come more often than this by then has its latest {@link OCCURRENCES}. */
const MOST_OF_OLD = 400;
/** Parts of a rule that days have no use for (RFC 5545 3.3.10). */
const FINER_THAN_DAYS = /HOURLY|MINUTELY|SECONDLY|BYHOUR|BYMINUTE|BYSECOND/;

/** An iCalendar text, and the day on which it is read. */
export interface CalendarText {
  text: string;
  today: string;
}

/** What is wrong with a text, and on which of its lines. */
export interface CalendarComplaint {
  reason: string;
  line?: number;
}

/** `leftOut`: events that close no day. */
export type ReadCalendar =
  { times: ClosedTime[]; leftOut: number } | { errors: CalendarComplaint[] };

/**
 * The days that an iCalendar text (RFC 5545) names, such as a school's holidays: its events of whole days, with those that
 * come again. Events at times of day close no day and are left out, and so are those that were called off.
 */
export function readCalendar({ text, today }: CalendarText): ReadCalendar {
  let components: ICAL.Component[];
  try {
    const calendar = new ICAL.Component(ICAL.parse(text) as [string, unknown[], unknown[]]);
    components = calendar.getAllSubcomponents('vevent');
  } catch (error) {
    return {
      errors: [whereUnreadable(text) ?? { reason: `is no iCalendar text: ${told(error)}` }],
    };
  }
  const lines = linesOfEvents(text);
  const events = components.map((one) => new ICAL.Event(one));
  const errors: CalendarComplaint[] = [];
  const times: ClosedTime[] = [];
  let leftOut = 0;
  for (const [index, event] of events.entries()) {
    try {
      const own = closes(event) ? timesOf(event, daysReplaced(event, events), today) : [];
      if (!closes(event)) leftOut++;
      times.push(...own);
      const reason = own.map(refuseClosedTime).find((one) => one !== null);
      if (reason !== undefined) errors.push({ line: lines[index], reason });
    } catch (error) {
      const reason = `has an event whose days cannot be worked out: ${told(error)}`;
      errors.push({ line: lines[index], reason });
    }
  }
  if (errors.length > 0) return { errors };
  const reason = refuseCount(times.length);
  if (reason !== null) return { errors: [{ reason }] };
  return { times: times.sort((one, other) => (one.from < other.from ? -1 : 1)), leftOut };
}

function closes({ startDate, component }: ICAL.Event): boolean {
  return startDate.isDate && component.getFirstPropertyValue('status') !== 'CANCELLED';
}

function told(error: unknown): string {
  return error instanceof Error ? error.message : 'unreadable';
}

function refuseCount(count: number): string | null {
  if (count === 0) return 'names no event of whole days';
  if (count <= MAX_CLOSED_TIMES) return null;
  return `names ${count} times; at most ${MAX_CLOSED_TIMES} are taken`;
}

/** The days of an event that comes again which events of their own stand for: moved, or called off. */
function daysReplaced({ uid, recurrenceId }: ICAL.Event, events: readonly ICAL.Event[]): string[] {
  if (recurrenceId) return [];
  return events.flatMap((one) =>
    one.uid === uid && one.recurrenceId && one.startDate.isDate ? asDay(one.recurrenceId) : [],
  );
}

function timesOf(event: ICAL.Event, replaced: readonly string[], today: string): ClosedTime[] {
  const name = (event.summary || 'Closed').slice(0, 200);
  const start = asDay(event.startDate);
  const length = Temporal.PlainDate.from(start).until(asDay(event.endDate));
  const days = event.isRecurring() ? daysOf(event, start, today) : [start];
  return days
    .filter((day) => !replaced.includes(day))
    .map((from) => ({ from, until: Temporal.PlainDate.from(from).add(length).toString(), name }));
}

/**
 * The days on which an event that comes again begins. Its rules are worked out by `rrule-temporal`: ical.js is wrong on weeks of a
 * year, on the nth weekday of a year and on 29 February.
 */
function daysOf({ component }: ICAL.Event, start: string, today: string): string[] {
  const rules = component.getAllProperties('rrule').map((rule) => String(rule.getFirstValue()));
  const days = rules.length === 0 ? [start] : rules.flatMap((rule) => byRule(rule, start, today));
  const excepted = datesOf(component, 'exdate');
  const all = new Set([...days, ...datesOf(component, 'rdate')]);
  return [...all].filter((day) => !excepted.includes(day));
}

function byRule(rule: string, start: string, today: string): string[] {
  const finer = FINER_THAN_DAYS.exec(rule);
  if (finer !== null) throw new Error(`${finer[0]} says nothing of whole days`);
  const ahead = Temporal.PlainDate.from(today).add({ years: YEARS_AHEAD }).toString();
  const isEndless = !/COUNT|UNTIL/.test(rule);
  const days: string[] = [];
  const begins = `DTSTART:${start.replaceAll('-', '')}T000000Z`;
  new RRuleTemporal({ rruleString: `${begins}\nRRULE:${rule}` }).all((at) => {
    const day = at.toPlainDate().toString();
    const isEnough = isEndless
      ? days.length >= OCCURRENCES && day > ahead
      : days.length > MAX_CLOSED_TIMES;
    if (!isEnough) days.push(day);
    return !isEnough;
  });
  return isEndless && days.length > MOST_OF_OLD ? days.slice(-OCCURRENCES) : days;
}

function datesOf(component: ICAL.Component, name: 'rdate' | 'exdate'): string[] {
  return component.getAllProperties(name).flatMap((property) => {
    return (property.getValues() as ICAL.Time[]).map(asDay);
  });
}

function asDay(day: ICAL.Time): string {
  return day.toString().slice(0, 10);
}
