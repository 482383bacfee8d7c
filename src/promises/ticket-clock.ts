import {
  classOfTrouble,
  type TroubleClass,
  type TroubleEvidence,
} from '../contracts/class-of-trouble.js';
import { closedByDay, type ClosedTime } from '../contracts/closed-time.js';
import type { Coverage, Promised, PromiseKind } from '../contracts/contract-kinds.js';
import { type CoverageCalendar, siteDay } from '../contracts/coverage.js';
import { type ClockLine, coveredMs, type Pause, reckonDue } from './promise-clock.js';
import { publicHolidays } from '../contracts/public-holidays.js';
import { type Course, type CourseEntry, courseOf, saidOf } from './ticket-course.js';

const MINUTE_MS = 60_000;

/** A warning comes when so much of the promised time has gone by. */
const WARNED_AFTER = 0.75;

/** A contract as far as a clock goes by it. */
export interface ClockContract {
  id: string;
  title: string;
  promises: Promised[];
  coverage: Coverage;
}

/** All that a ticket's clock depends on; instants in milliseconds since 1970. */
export interface ClockQuestion {
  ticketId: string;
  state: string;
  siteZone: string;
  now: number;
  /** When the trouble was reported, as it was said, and when that was written down. */
  reportedAt: number;
  recordedAt: number;
  entries: CourseEntry[];
  /** When somebody began a visit for it. */
  onSiteAt: number[];
  evidence: TroubleEvidence;
  /** As it was kept last; it stands once all works again. */
  keptClass: TroubleClass | null;
  /** In force when it was reported; null: none was. */
  contract: ClockContract | null;
  /** Those that the contract names. */
  calendars: { name: string; times: ClosedTime[] }[];
}

export type PromiseState = 'running' | 'paused' | 'met' | 'breached';

export interface PromiseClock {
  promise: PromiseKind;
  promisedMinutes: number;
  state: PromiseState;
  /** Null while it is paused. */
  dueAt: number | null;
  /** Covered time that is left; none where it was met or breached. */
  leftMs: number | null;
  /** When a breach is near: three quarters of the time have gone by. */
  warnAt: number | null;
  /** When it was done; null: not yet. */
  doneAt: number | null;
  /** Covered time until it was done, or until now. */
  takenMs: number;
  /** Why it was breached, as somebody said. */
  cause: string | null;
  lines: ClockLine[];
}

/** Why no clock runs. */
export type NoClock = 'merged' | 'no-contract' | 'nothing-promised';

export interface TicketClock {
  ticketId: string;
  zone: string;
  contractId: string | null;
  contractTitle: string | null;
  reportedAt: number;
  recordedAt: number;
  troubleClass: TroubleClass;
  /** By evidence and causes, whatever was said instead. */
  computedClass: TroubleClass;
  overrideReason: string | null;
  pauses: Pause[];
  promises: PromiseClock[];
  none: NoClock | null;
}

/** A ticket's clocks against what the contract in force promised for its class of trouble. */
export function clockOf(question: ClockQuestion): TicketClock {
  const { contract, reportedAt, recordedAt, ticketId } = question;
  const course = courseOf(question.entries, question.onSiteAt);
  const { override, causes } = saidOf(question.entries);
  const computedClass = computedClassOf(question, course);
  const troubleClass = override?.troubleClass ?? computedClass;
  const promised = contract?.promises.find((one) => one.troubleClass === troubleClass);
  const zone = contract?.coverage.zone ?? question.siteZone;
  const clock = {
    ticketId,
    zone,
    ...namedBy(contract),
    reportedAt,
    recordedAt,
    troubleClass,
    computedClass,
    overrideReason: override?.reason ?? null,
    pauses: course.pauses.filter(({ reason }) => reason !== 'closed'),
    promises: [],
  };
  if (question.state === 'merged') return { ...clock, none: 'merged' };
  if (contract === null) return { ...clock, none: 'no-contract' };
  if (promised === undefined) return { ...clock, none: 'nothing-promised' };

  const calendar = calendarOf(contract.coverage, zone, question);
  const reckon = (promise: PromiseKind, minutes: number, doneAt: number | null) =>
    promiseClock({ promise, minutes, doneAt, cause: causes[promise] ?? null }, calendar, {
      ...question,
      course,
    });
  const { responseMinutes, restoreMinutes } = promised;
  const promises = [reckon('response', responseMinutes, course.respondedAt)];
  if (restoreMinutes !== null) {
    promises.push(reckon('restore', restoreMinutes, course.restoredAt));
  }
  return { ...clock, promises, none: null };
}

function namedBy(contract: ClockContract | null) {
  return { contractId: contract?.id ?? null, contractTitle: contract?.title ?? null };
}

/** What is found out once all works again says nothing of what was promised. */
function computedClassOf({ keptClass, evidence }: ClockQuestion, course: Course): TroubleClass {
  const isOver = course.restoredAt !== null && keptClass !== null;
  return isOver ? keptClass : classOfTrouble(evidence);
}

interface Asked {
  promise: PromiseKind;
  minutes: number;
  doneAt: number | null;
  cause: string | null;
}

function promiseClock(
  { promise, minutes, doneAt, cause }: Asked,
  calendar: CoverageCalendar,
  { reportedAt, now, course }: { reportedAt: number; now: number; course: Course },
): PromiseClock {
  const promisedMs = minutes * MINUTE_MS;
  const end = doneAt ?? now;
  const pauses = course.pauses.filter(({ from }) => from < (doneAt ?? now + 1));
  const { dueAt, leftMs, lines } = reckonDue(calendar, reportedAt, promisedMs, pauses);
  const takenMs = coveredMs(calendar, reportedAt, Math.max(end, reportedAt), pauses);
  const isLate = dueAt === null ? takenMs > promisedMs : end > dueAt;
  const isDone = doneAt !== null;
  const isPaused = pauses.some(({ until }) => until === null);
  const state = isLate ? 'breached' : isDone ? 'met' : isPaused ? 'paused' : 'running';
  const isOpen = state === 'running' || state === 'paused';
  const warn = reckonDue(calendar, reportedAt, Math.ceil(promisedMs * WARNED_AFTER), pauses);
  return {
    promise,
    promisedMinutes: minutes,
    state,
    dueAt,
    leftMs: isOpen ? (dueAt === null ? leftMs : promisedMs - takenMs) : null,
    warnAt: isDone ? null : warn.dueAt,
    doneAt,
    takenMs,
    cause,
    lines,
  };
}

/** Own closed days come first, then public holidays, then the calendars in the order that the contract names them. */
export function calendarOf(
  { windows, closedDays, publicHolidays: region }: Coverage,
  zone: string,
  { reportedAt, calendars }: Pick<ClockQuestion, 'reportedAt' | 'calendars'>,
): CoverageCalendar {
  const year = Number(siteDay(zone, reportedAt).slice(0, 4));
  const times = [
    ...closedDays.map((time) => ({ ...time, why: 'closed-day' as const })),
    ...(region === null ? [] : publicHolidays(region, year - 1, year + 3)).map((time) => {
      return { ...time, why: 'public-holiday' as const };
    }),
    ...calendars.flatMap(({ name, times }) =>
      times.map((time) => ({ ...time, name: `${time.name} (${name})`, why: 'calendar' as const })),
    ),
  ];
  return { zone, windows, closed: closedByDay(times) };
}
