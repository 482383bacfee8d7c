import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';

import type { CoverageCalendar, CoverageWindow } from '../contracts/coverage.js';
import { type ClockLine, coveredMs, type Pause, reckonDue } from './promise-clock.js';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
/** The oracle looks no further. */
const HORIZON = 15 * 24 * HOUR;

function weekdays(from: string, until: string, days = [1, 2, 3, 4, 5]): CoverageWindow[] {
  return days.map((weekday) => ({ weekday, from, until }));
}

function at({ zone }: CoverageCalendar, day: string, time: string): number {
  return Temporal.PlainDateTime.from(`${day}T${time}`).toZonedDateTime(zone).epochMilliseconds;
}

describe('a promise clock', () => {
  const easter: CoverageCalendar = {
    zone: 'Europe/Berlin',
    windows: weekdays('08:00', '17:00'),
    closed: { '2026-04-06': { why: 'public-holiday', name: 'Easter Monday' } },
  };

  it('says line by line how it came to its due instant', () => {
    const start = at(easter, '2026-04-03', '16:20');
    const { dueAt, leftMs, lines } = reckonDue(easter, start, 4 * HOUR);
    expect(dueAt).toBe(at(easter, '2026-04-07', '11:20'));
    expect(leftMs).toBe(0);
    expect(lines).toEqual([
      counted('2026-04-03', start, 40 * MINUTE, 200 * MINUTE),
      { kind: 'closed', from: '2026-04-04', to: '2026-04-05', why: 'no-hours', name: null },
      {
        kind: 'closed',
        from: '2026-04-06',
        to: '2026-04-06',
        why: 'public-holiday',
        name: 'Easter Monday',
      },
      counted('2026-04-07', at(easter, '2026-04-07', '08:00'), 200 * MINUTE, 0),
    ]);
  });

  // pandas user guide, business hour, 09:00-17:00 from Monday to Friday.
  it('agrees with a published case of business hours: Friday 16:30 and an hour is Monday 09:30', () => {
    const plain = { zone: 'Etc/UTC', windows: weekdays('09:00', '17:00'), closed: {} };
    const { dueAt } = reckonDue(plain, at(plain, '2014-08-01', '16:30'), HOUR);
    expect(dueAt).toBe(at(plain, '2014-08-04', '09:30'));
  });

  // The same guide: with a holiday on 2014-01-20 two hours from Friday 15:00 are Tuesday 09:00 there. Decision 0071.
  it('is due at the end of the hours, not at the next opening, when it ends just then', () => {
    const closed = { '2014-01-20': { why: 'public-holiday', name: 'Holiday' } } as const;
    const calendar = { zone: 'Etc/UTC', windows: weekdays('09:00', '17:00'), closed };
    const start = at(calendar, '2014-01-17', '15:00');
    expect(reckonDue(calendar, start, 2 * HOUR).dueAt).toBe(at(calendar, '2014-01-17', '17:00'));
    const later = reckonDue(calendar, start, 2 * HOUR + MINUTE).dueAt;
    expect(later).toBe(at(calendar, '2014-01-21', '09:01'));
  });

  // IANA tz: Europe/Berlin 2026-03-29 and 2026-10-25 at 01:00Z; Australia/Sydney 2026-04-04 and 2026-10-03 at 16:00Z;
  // Pacific/Auckland 2026-09-26 at 14:00Z.
  it.each([
    ['Europe/Berlin', '2026-03-28T23:00:00Z', '2026-03-29T22:00:00Z', 23],
    ['Europe/Berlin', '2026-10-24T22:00:00Z', '2026-10-25T23:00:00Z', 25],
    ['Australia/Sydney', '2026-04-04T13:00:00Z', '2026-04-05T14:00:00Z', 25],
    ['Australia/Sydney', '2026-10-03T14:00:00Z', '2026-10-04T13:00:00Z', 23],
    ['Pacific/Auckland', '2026-09-26T12:00:00Z', '2026-09-27T11:00:00Z', 23],
  ])(
    'counts the hours that the day has where the clock changes: %s from %s',
    (zone, from, to, hours) => {
      const calendar = {
        zone,
        windows: weekdays('00:00', '24:00', [1, 2, 3, 4, 5, 6, 7]),
        closed: {},
      };
      expect(coveredMs(calendar, Date.parse(from), Date.parse(to))).toBe(hours * HOUR);
      const night = { ...calendar, windows: weekdays('02:00', '03:00', [7]) };
      expect(coveredMs(night, Date.parse(from), Date.parse(to))).toBe((hours - 23) * HOUR);
    },
  );

  it('stops while it is paused, and goes on from just there', () => {
    const start = at(easter, '2026-04-07', '08:00');
    const pause: Pause = {
      from: at(easter, '2026-04-07', '09:00'),
      until: at(easter, '2026-04-07', '10:30'),
      reason: 'no-access',
      evidence: 'Gate locked, photo 3',
      saidBy: 'Ilvo Marsh',
    };
    const { dueAt, lines } = reckonDue(easter, start, 2 * HOUR, [pause]);
    expect(dueAt).toBe(at(easter, '2026-04-07', '11:30'));
    expect(lines.map(({ kind }) => kind)).toEqual(['counted', 'paused', 'counted']);
    const lasting = reckonDue(easter, start, 2 * HOUR, [{ ...pause, until: null }]);
    expect(lasting).toMatchObject({ dueAt: null, leftMs: HOUR });
    const afterwards = reckonDue(easter, start, HOUR, [{ ...pause, until: null }]);
    expect(afterwards.dueAt).toBe(pause.from);
  });

  it('has no due instant where nothing ever opens, and says how much is left', () => {
    const never = { zone: 'Etc/UTC', windows: [], closed: {} };
    expect(reckonDue(never, 0, HOUR)).toMatchObject({ dueAt: null, leftMs: HOUR });
  });

  it('cuts a long reckoning in the middle without losing any of it', () => {
    const calendar = { zone: 'Etc/UTC', windows: weekdays('09:00', '09:30'), closed: {} };
    const { lines } = reckonDue(calendar, at(calendar, '2026-01-05', '09:00'), 100 * HOUR);
    expect(lines).toHaveLength(41);
    const sum = lines.reduce((ms, line) => ms + ('ms' in line ? line.ms : 0), 0);
    expect(sum).toBe(100 * HOUR);
  });

  it('agrees with an oracle that goes minute by minute', () => {
    let paused = 0;
    let changed = 0;
    fc.assert(
      fc.property(cases(), ({ calendar, start, minutes, pauses }) => {
        const { dueAt, leftMs, lines } = reckonDue(calendar, start, minutes * MINUTE, pauses);
        const slow = oracle(calendar, start, minutes, pauses);
        const isBeyond = dueAt !== null && dueAt > start + HORIZON;
        expect(isBeyond ? null : dueAt).toBe(slow.dueAt);
        if (isBeyond) return;
        expect(leftMs).toBe(slow.left * MINUTE);
        const told = lines.reduce((ms, line) => ms + ('ms' in line ? line.ms : 0), 0);
        expect(told + leftMs).toBe(minutes * MINUTE);
        if (dueAt === null) return;
        expect(coveredMs(calendar, start, dueAt, pauses)).toBe(minutes * MINUTE);
        if (pauses.length > 0) paused++;
        if (offsetAt(calendar.zone, start) !== offsetAt(calendar.zone, dueAt)) changed++;
      }),
      { seed: 20260329, numRuns: 90 },
    );
    expect(paused).toBeGreaterThan(20);
    expect(changed).toBeGreaterThan(20);
  });
});

function counted(day: string, from: number, ms: number, leftMs: number): ClockLine {
  return { kind: 'counted', day, from, until: from + ms, ms, leftMs };
}

/** Changes of the clock in 2026 (IANA tz), by half an hour, one and two, some at midnight, some of zones off the hour. */
const CHANGES = [
  ['Europe/Berlin', '2026-03-29T01:00:00Z'],
  ['Europe/Berlin', '2026-10-25T01:00:00Z'],
  ['Australia/Sydney', '2026-04-04T16:00:00Z'],
  ['Australia/Sydney', '2026-10-03T16:00:00Z'],
  ['America/New_York', '2026-03-08T07:00:00Z'],
  ['Australia/Lord_Howe', '2026-04-04T15:00:00Z'],
  ['Australia/Lord_Howe', '2026-10-03T15:30:00Z'],
  ['Antarctica/Troll', '2026-03-29T01:00:00Z'],
  ['America/St_Johns', '2026-11-01T04:30:00Z'],
  ['Pacific/Chatham', '2026-09-26T14:00:00Z'],
  ['America/Santiago', '2026-09-06T04:00:00Z'],
  ['Asia/Beirut', '2026-10-24T21:00:00Z'],
  ['Asia/Kathmandu', '2026-06-14T12:00:00Z'],
] as const;

function cases() {
  const window = fc
    .tuple(
      fc.integer({ min: 1, max: 7 }),
      fc.integer({ min: 0, max: 1439 }),
      fc.integer({ min: 60, max: 900 }),
    )
    .map(([weekday, from, minutes]) => ({
      weekday,
      from: clockTime(from),
      until: clockTime(Math.min(1440, from + minutes)),
    }));
  return fc
    .record({
      change: fc.constantFrom(...CHANGES),
      windows: fc.array(window, { minLength: 3, maxLength: 12 }).map(withoutOverlaps),
      closed: fc.array(fc.integer({ min: -1, max: 6 }), { maxLength: 2 }),
      before: fc.integer({ min: 0, max: 2000 }),
      minutes: fc.integer({ min: 1, max: 700 }),
      pauses: fc.array(
        fc.tuple(fc.integer({ min: 0, max: 3000 }), fc.integer({ min: 0, max: 700 })),
        {
          maxLength: 3,
        },
      ),
      lasts: fc.boolean(),
    })
    .map(({ change: [zone, instant], windows, closed, before, minutes, pauses, lasts }) => {
      const start = Date.parse(instant) - before * MINUTE;
      const days = closed.map((day) => new Date(Date.parse(instant) + day * 24 * HOUR));
      const calendar: CoverageCalendar = {
        zone,
        windows,
        closed: Object.fromEntries(
          days.map((day) => [day.toISOString().slice(0, 10), { why: 'closed-day', name: 'Fair' }]),
        ),
      };
      return {
        calendar,
        start,
        minutes,
        pauses: pauses.map(([from, length], index): Pause => {
          const ends =
            lasts && index === pauses.length - 1 ? null : start + (from + length) * MINUTE;
          return {
            from: start + from * MINUTE,
            until: ends,
            reason: 'no-access',
            evidence: 'x',
            saidBy: null,
          };
        }),
      };
    });
}

function withoutOverlaps(windows: CoverageWindow[]): CoverageWindow[] {
  return windows.filter(
    (one, index) =>
      !windows
        .slice(0, index)
        .some(
          (other) =>
            other.weekday === one.weekday && one.from < other.until && other.from < one.until,
        ),
  );
}

function clockTime(minute: number): string {
  const two = (value: number) => String(value).padStart(2, '0');
  return `${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
}

/** Looks at the wall clock of every minute; knows nothing of offsets or of stretches. */
function oracle(calendar: CoverageCalendar, start: number, minutes: number, pauses: Pause[]) {
  const clock = wallClock(calendar.zone);
  const lasting = pauses.find(({ until }) => until === null)?.from ?? Infinity;
  let left = minutes;
  for (let minute = start; minute < Math.min(lasting, start + HORIZON); minute += MINUTE) {
    if (pauses.some(({ from, until }) => from <= minute && minute < (until ?? Infinity))) continue;
    const { day, time, weekday } = clock(minute);
    if (calendar.closed[day] !== undefined) continue;
    const isOpen = calendar.windows.some(
      (one) => one.weekday === weekday && one.from <= time && time < one.until,
    );
    if (isOpen && --left === 0) return { dueAt: minute + MINUTE, left };
  }
  return { dueAt: null, left };
}

function wallClock(zone: string) {
  const format = new Intl.DateTimeFormat('sv-SE', {
    timeZone: zone,
    dateStyle: 'short',
    timeStyle: 'short',
  });
  return (instant: number) => {
    const [day = '', time = ''] = format.format(instant).split(' ');
    return { day, time, weekday: new Date(`${day}T00:00:00Z`).getUTCDay() || 7 };
  };
}

function offsetAt(zone: string, instant: number): string {
  const { day, time } = wallClock(zone)(instant);
  return String(Date.parse(`${day}T${time}Z`) - instant);
}
