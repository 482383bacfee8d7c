import { Temporal } from 'temporal-polyfill';
import { minuteOfDay } from '../shared/time-of-day.js';

const MINUTE_MS = 60_000;
const DAY_MS = 24 * 60 * MINUTE_MS;

/** Hours of one day of the week in which a promise runs, by the wall clock; half-open. */
export interface CoverageWindow {
  /** ISO 8601: Monday is 1, Sunday 7. */
  weekday: number;
  /** "08:00" */
  from: string;
  /** "16:30"; "24:00" is the end of the day. */
  until: string;
}

/** Why nothing runs on a whole day. */
export interface Closing {
  why: 'public-holiday' | 'closed-day' | 'calendar';
  name: string;
}

/** When a promise runs at a site: every instant whose wall clock is in a window, on a day that is not closed. */
export interface CoverageCalendar {
  /** IANA name. */
  zone: string;
  windows: readonly CoverageWindow[];
  /** By day, "2026-05-04". */
  closed: Readonly<Record<string, Closing>>;
}

/** A time in which a promise runs without a break, in milliseconds since 1970; half-open. */
export interface CoveredStretch {
  /** The day by the site's calendar. */
  day: string;
  from: number;
  until: number;
}

/**
 * The stretches of covered time from one instant to another, in order. Where the clock is put on, the hour that is left
 * out is not there to be covered; where it is put back, an hour that comes twice is covered twice.
 */
export function* coveredStretches(
  calendar: CoverageCalendar,
  from: number,
  until: number,
): Generator<CoveredStretch> {
  const windows = byWeekday(calendar.windows);
  for (const { start, end, offset } of sameOffset(calendar.zone, from, until)) {
    for (let day = Math.floor((start + offset) / DAY_MS); day * DAY_MS < end + offset; day++) {
      const name = dayName(day);
      if (Object.hasOwn(calendar.closed, name)) continue;
      for (const window of windows[weekdayIndex(day)] ?? []) {
        const opens = Math.max(start, day * DAY_MS + window.from - offset);
        const closes = Math.min(end, day * DAY_MS + window.until - offset);
        if (opens < closes) yield { day: name, from: opens, until: closes };
      }
    }
  }
}

/** The day at a site at an instant, "2026-05-04". */
export function siteDay(zone: string, instant: number): string {
  return zoned(zone, instant).toPlainDate().toString();
}

interface SameOffset {
  start: number;
  end: number;
  /** Milliseconds that the wall clock is ahead of UTC. */
  offset: number;
}

/** The pieces between an instant and another in which the wall clock is never put on or back. */
function* sameOffset(zone: string, from: number, until: number): Generator<SameOffset> {
  let at = zoned(zone, from);
  while (at.epochMilliseconds < until) {
    const next = at.getTimeZoneTransition('next');
    const end = Math.min(next?.epochMilliseconds ?? Infinity, until);
    yield { start: at.epochMilliseconds, end, offset: at.offsetNanoseconds / 1e6 };
    if (next === null) return;
    at = next;
  }
}

function zoned(zone: string, instant: number): Temporal.ZonedDateTime {
  return Temporal.Instant.fromEpochMilliseconds(instant).toZonedDateTimeISO(zone);
}

function byWeekday(windows: readonly CoverageWindow[]): { from: number; until: number }[][] {
  const days: { from: number; until: number }[][] = Array.from({ length: 7 }, () => []);
  for (const { weekday, from, until } of windows) {
    const minutes = { from: minuteOfDay(from) ?? 0, until: minuteOfDay(until) ?? 0 };
    days[weekday - 1]?.push({ from: minutes.from * MINUTE_MS, until: minutes.until * MINUTE_MS });
  }
  for (const day of days) day.sort((one, other) => one.from - other.from);
  return days;
}

/** Day 0, 1 January 1970, was a Thursday. */
function weekdayIndex(day: number): number {
  return (((day + 3) % 7) + 7) % 7;
}

function dayName(day: number): string {
  return new Date(day * DAY_MS).toISOString().slice(0, 10);
}
