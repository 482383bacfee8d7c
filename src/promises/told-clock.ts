import type { ClockWords } from '../words/index.js';
import type { ClockLine } from './promise-clock.js';
import type { PromiseClock, TicketClock } from './ticket-clock.js';
import type { ClockLineDto, PromiseClockDto, TicketClockDto } from './ticket-promise.dto.js';

/** A clock as it is told: instants as such, and the words beside the facts. */
export function toClockDto(clock: TicketClock, words: ClockWords): TicketClockDto {
  const { zone, reportedAt, recordedAt, pauses, promises, ...rest } = clock;
  return {
    ...rest,
    zone,
    reportedAt: new Date(reportedAt),
    recordedAt: new Date(recordedAt),
    pauses: pauses.flatMap(({ from, until, reason, ...said }) =>
      reason === 'closed' ? [] : { from: new Date(from), until: dateOf(until), reason, ...said },
    ),
    promises: promises.map((promise) => toPromise(promise, clock, words)),
  };
}

function toPromise(
  clock: PromiseClock,
  { zone, reportedAt }: TicketClock,
  words: ClockWords,
): PromiseClockDto {
  const { promise, promisedMinutes, state, cause, lines } = clock;
  return {
    promise,
    promisedMinutes,
    state,
    cause,
    dueAt: dateOf(clock.dueAt),
    minutesLeft: clock.leftMs === null ? null : clock.leftMs / 60_000,
    warnAt: dateOf(clock.warnAt),
    doneAt: dateOf(clock.doneAt),
    minutesTaken: clock.takenMs / 60_000,
    lines: lines.map((line) => toLine(line, words.line(line, zone))),
    words: words.reckoning({ zone, reportedAt, clock }),
  };
}

function toLine({ kind, ...line }: ClockLine, words: string): ClockLineDto {
  const fact = Object.fromEntries(
    Object.entries(line).map(([name, value]) => {
      if ((name === 'from' || name === 'until') && typeof value === 'number') {
        return [name, new Date(value).toISOString()];
      }
      if (name === 'ms') return ['minutes', (value as number) / 60_000];
      if (name === 'leftMs') return ['minutesLeft', (value as number) / 60_000];
      return [name, value];
    }),
  );
  return { kind, words, fact };
}

function dateOf(instant: number | null): Date | null {
  return instant === null ? null : new Date(instant);
}
