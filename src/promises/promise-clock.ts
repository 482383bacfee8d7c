import { Temporal } from 'temporal-polyfill';
import {
  type CoverageCalendar,
  coveredStretches,
  siteDay,
  type CoveredStretch,
} from '../contracts/coverage.js';

/** Further ahead nothing is looked for: a calendar that is closed for so long never opens. */
const HORIZON_DAYS = 800;
const DAY_MS = 86_400_000;

/** More lines than these are cut in the middle. */
const LINES_EACH_END = 20;

/** What may stop a promise clock; `closed`: the ticket was closed meanwhile, and taken up again. */
export const PAUSE_REASONS = ['no-access', 'waiting-for-client', 'part-on-order'] as const;

export type PauseReason = (typeof PAUSE_REASONS)[number];

/** A time that does not count, in milliseconds since 1970; half-open. */
export interface Pause {
  from: number;
  /** Null while it lasts. */
  until: number | null;
  reason: PauseReason | 'closed';
  /** What shows that it was so. */
  evidence: string;
  /** Whoever said it; null where nobody did: the ticket was closed. */
  saidBy: string | null;
}

/** One fact of how a promise was reckoned, in the order of time; instants in milliseconds since 1970. */
export type ClockLine =
  | { kind: 'counted'; day: string; from: number; until: number; ms: number; leftMs: number }
  /** Days on which nothing runs, from the first to the last; `name` of a holiday or a closed time. */
  | { kind: 'closed'; from: string; to: string; why: ClosedWhy; name: string | null }
  | {
      kind: 'paused';
      from: number;
      until: number | null;
      reason: Pause['reason'];
      evidence: string;
      saidBy: string | null;
    }
  /** Lines left out, which counted so much together. */
  | { kind: 'further'; lines: number; ms: number };

export type ClosedWhy = 'public-holiday' | 'closed-day' | 'calendar' | 'no-hours';

export interface Reckoned {
  /** Null while it is paused, and where the calendar does not open for long enough. */
  dueAt: number | null;
  /** Covered time that is left when it is paused or never ends; 0 with a due instant. */
  leftMs: number;
  lines: ClockLine[];
}

/**
 * When so much covered time has gone by since the start, pauses left out. What ends just as the hours do is due then, not
 * at the next opening.
 */
export function reckonDue(
  calendar: CoverageCalendar,
  start: number,
  promisedMs: number,
  pauses: readonly Pause[] = [],
): Reckoned {
  const open = pauses.find(({ until }) => until === null)?.from ?? Infinity;
  const end = Math.min(start + HORIZON_DAYS * DAY_MS, open);
  const counted: Extract<ClockLine, { kind: 'counted' }>[] = [];
  let leftMs = promisedMs;
  for (const stretch of running(calendar, start, end, pauses)) {
    const until = Math.min(stretch.until, stretch.from + leftMs);
    const ms = until - stretch.from;
    leftMs -= ms;
    counted.push({ kind: 'counted', day: stretch.day, from: stretch.from, until, ms, leftMs });
    if (leftMs === 0) break;
  }
  const isDue = leftMs === 0 && counted.length > 0;
  const last = counted.at(-1)?.until ?? start;
  const told = isDue ? last : open === Infinity ? start : open;
  const lines = [
    ...counted,
    ...closedLines(calendar, start, Math.max(told, last)),
    ...pauses
      .filter(({ from, until }) => from <= Math.max(told, last) && (until ?? Infinity) > start)
      .map((pause): ClockLine => ({ kind: 'paused', ...pause })),
  ];
  const inOrder = lines.sort((one, other) => beginOf(calendar, one) - beginOf(calendar, other));
  return { dueAt: isDue ? last : null, leftMs, lines: cutMiddle(inOrder) };
}

/** How much covered time lies between two instants, pauses left out. */
export function coveredMs(
  calendar: CoverageCalendar,
  from: number,
  until: number,
  pauses: readonly Pause[] = [],
): number {
  let sum = 0;
  for (const stretch of running(calendar, from, until, pauses)) sum += stretch.until - stretch.from;
  return sum;
}

/** Covered stretches without the pauses, which may overlap. */
function* running(
  calendar: CoverageCalendar,
  from: number,
  until: number,
  pauses: readonly Pause[],
): Generator<CoveredStretch> {
  const inOrder = [...pauses].sort((one, other) => one.from - other.from);
  for (const stretch of coveredStretches(calendar, from, until)) {
    let at = stretch.from;
    for (const pause of inOrder) {
      const ends = pause.until ?? Infinity;
      if (ends <= at) continue;
      if (pause.from >= stretch.until) break;
      if (pause.from > at) yield { day: stretch.day, from: at, until: pause.from };
      at = Math.max(at, ends);
    }
    if (at < stretch.until) yield { day: stretch.day, from: at, until: stretch.until };
  }
}

/** Whole days after the first on which nothing runs, days of one cause together. */
function closedLines(calendar: CoverageCalendar, start: number, until: number): ClockLine[] {
  const lines: Extract<ClockLine, { kind: 'closed' }>[] = [];
  const last = Temporal.PlainDate.from(siteDay(calendar.zone, until));
  let day = Temporal.PlainDate.from(siteDay(calendar.zone, start));
  for (; Temporal.PlainDate.compare(day, last) <= 0; day = day.add({ days: 1 })) {
    const cause = closedBy(calendar, day);
    if (cause === undefined) continue;
    const name = day.toString();
    const before = lines.at(-1);
    const follows = before !== undefined && day.subtract({ days: 1 }).toString() === before.to;
    if (follows && before.why === cause.why && before.name === cause.name) before.to = name;
    else lines.push({ kind: 'closed', from: name, to: name, ...cause });
  }
  return lines;
}

function closedBy({ closed, windows }: CoverageCalendar, day: Temporal.PlainDate) {
  const closing = closed[day.toString()];
  if (closing !== undefined) return { why: closing.why, name: closing.name };
  const isOpen = windows.some(({ weekday }) => weekday === day.dayOfWeek);
  return isOpen ? undefined : { why: 'no-hours' as const, name: null };
}

function beginOf({ zone }: CoverageCalendar, line: ClockLine): number {
  if (line.kind === 'further') return 0;
  if (line.kind !== 'closed') return line.from;
  return Temporal.PlainDate.from(line.from).toZonedDateTime(zone).epochMilliseconds;
}

function cutMiddle(lines: ClockLine[]): ClockLine[] {
  if (lines.length <= 2 * LINES_EACH_END + 1) return lines;
  const middle = lines.slice(LINES_EACH_END, -LINES_EACH_END);
  const ms = middle.reduce((sum, line) => sum + (line.kind === 'counted' ? line.ms : 0), 0);
  return [
    ...lines.slice(0, LINES_EACH_END),
    { kind: 'further', lines: middle.length, ms },
    ...lines.slice(-LINES_EACH_END),
  ];
}
