import { describe, expect, it } from '@jest/globals';

import type { CoverageWindow } from '../contracts/coverage.js';
import { clockOf, type ClockQuestion } from './ticket-clock.js';
import type { CourseEntry } from './ticket-course.js';

const WEEK: CoverageWindow[] = [1, 2, 3, 4, 5].map((weekday) => {
  return { weekday, from: '08:00', until: '17:00' };
});
const at = (text: string) => Date.parse(`${text}:00Z`);
const STATIONS = [1, 2, 3].map((node) => ({ trunk: 'A', node: `A${node}` }));

/** Reported on Friday 3 April 2026 at 16:20; Monday is Easter Monday. */
const QUESTION: ClockQuestion = {
  ticketId: 'T',
  state: 'reported',
  siteZone: 'Etc/UTC',
  now: at('2026-04-03T16:30'),
  reportedAt: at('2026-04-03T16:20'),
  recordedAt: at('2026-04-03T16:21'),
  entries: [],
  onSiteAt: [],
  evidence: { stations: STATIONS, silent: STATIONS.slice(1), heard: [], behindLikeliest: [] },
  keptClass: null,
  contract: {
    id: 'C',
    title: 'Upkeep',
    promises: [
      { troubleClass: 'several-rooms', responseMinutes: 240, restoreMinutes: 480 },
      { troubleClass: 'one-room', responseMinutes: 540, restoreMinutes: null },
    ],
    coverage: {
      zone: null,
      windows: WEEK,
      publicHolidays: { country: 'IE', region: null },
      closedDays: [],
      calendarIds: [],
    },
  },
  calendars: [],
};

const move = (when: string, from: string, to: string): CourseEntry => {
  return { kind: 'move', at: at(when), from, to };
};

const states = (more: Partial<ClockQuestion>) =>
  clockOf({ ...QUESTION, ...more }).promises.map(({ state }) => state);

describe('a ticket’s clock', () => {
  it('runs by what was promised for the class of its trouble', () => {
    const clock = clockOf(QUESTION);
    expect(clock).toMatchObject({ troubleClass: 'several-rooms', contractId: 'C', none: null });
    const [response, restore] = clock.promises;
    expect(response).toMatchObject({
      state: 'running',
      dueAt: at('2026-04-07T11:20'),
      warnAt: at('2026-04-07T10:20'),
      leftMs: 230 * 60_000,
      takenMs: 10 * 60_000,
    });
    expect(restore?.dueAt).toBe(at('2026-04-07T15:20'));
    const override: CourseEntry = {
      kind: 'trouble-class',
      at: at('2026-04-03T17:00'),
      troubleClass: 'one-room',
      reason: 'The other room is a store',
    };
    expect(clockOf({ ...QUESTION, entries: [override] })).toMatchObject({
      troubleClass: 'one-room',
      computedClass: 'several-rooms',
      overrideReason: 'The other room is a store',
      promises: [{ promisedMinutes: 540 }],
    });
    const back = { ...override, troubleClass: null };
    expect(clockOf({ ...QUESTION, entries: [override, back] }).troubleClass).toBe('several-rooms');
  });

  it('is met to the last moment, and breached after it', () => {
    const moves = (time: string) => [move(`2026-04-07T${time}`, 'to-visit', 'at-work')];
    const now = at('2026-04-07T12:00');
    expect(states({ now, entries: moves('11:20') })).toEqual(['met', 'running']);
    expect(states({ now, entries: moves('11:21') })).toEqual(['breached', 'running']);
    expect(states({ now: at('2026-04-07T11:20') })).toEqual(['running', 'running']);
    expect(states({ now: at('2026-04-07T11:21') })).toEqual(['breached', 'running']);
    expect(states({ now, onSiteAt: [at('2026-04-07T09:00')] })).toEqual(['met', 'running']);
    const mended = [move('2026-04-07T10:00', 'reported', 'mended')];
    expect(states({ now, entries: mended })).toEqual(['met', 'met']);
    const cause: CourseEntry = {
      kind: 'breach-cause',
      at: now,
      promise: 'response',
      cause: 'Snow',
    };
    const late = clockOf({ ...QUESTION, now, entries: [...moves('11:21'), cause] });
    expect(late.promises[0]?.cause).toBe('Snow');
  });

  it('does not count a mending that did not hold, nor the time that it was closed', () => {
    const now = at('2026-04-08T09:00');
    const failed = [
      move('2026-04-07T09:00', 'at-work', 'mended'),
      move('2026-04-07T10:00', 'mended', 'at-work'),
    ];
    expect(states({ now, entries: failed })).toEqual(['met', 'breached']);
    const bridged = [
      move('2026-04-07T09:00', 'at-work', 'bridged'),
      move('2026-04-07T10:00', 'bridged', 'at-work'),
    ];
    expect(states({ now, entries: bridged })).toEqual(['met', 'met']);
    const reopened = [
      move('2026-04-07T09:00', 'at-work', 'closed'),
      move('2026-04-07T16:00', 'closed', 'reported'),
    ];
    const [, restore] = clockOf({ ...QUESTION, now, entries: reopened }).promises;
    // 40 minutes on Friday, an hour on Tuesday morning and one in the evening, an hour today.
    expect(restore).toMatchObject({ state: 'running', takenMs: 220 * 60_000 });
    expect(restore?.dueAt).toBe(at('2026-04-08T13:20'));
  });

  it('stands still while it is paused, and is no breach then', () => {
    const pause: CourseEntry = {
      kind: 'pause',
      at: at('2026-04-07T09:00'),
      reason: 'no-access',
      evidence: 'Photo of the gate',
      saidBy: 'Ilvo Marsh',
    };
    const now = at('2026-04-09T12:00');
    const paused = clockOf({ ...QUESTION, now, entries: [pause] });
    expect(paused.pauses[0]).toMatchObject({ saidBy: 'Ilvo Marsh', evidence: 'Photo of the gate' });
    expect(paused.promises[0]).toMatchObject({
      state: 'paused',
      dueAt: null,
      leftMs: 140 * 60_000,
    });
    const resume: CourseEntry = { kind: 'resume', at: at('2026-04-09T12:00') };
    const resumed = clockOf({ ...QUESTION, now, entries: [pause, resume] });
    expect(resumed.promises[0]).toMatchObject({ state: 'running', dueAt: at('2026-04-09T14:20') });
    const late = { ...pause, at: at('2026-04-08T09:00') };
    expect(states({ now, entries: [late] })).toEqual(['breached', 'breached']);
  });

  it('is none without a contract, a promise, or a ticket of its own', () => {
    expect(clockOf({ ...QUESTION, contract: null }).none).toBe('no-contract');
    expect(clockOf({ ...QUESTION, state: 'merged' }).none).toBe('merged');
    const evidence = { ...QUESTION.evidence, silent: STATIONS };
    expect(clockOf({ ...QUESTION, evidence }).none).toBe('nothing-promised');
  });

  it('keeps its class once all works again', () => {
    const entries = [move('2026-04-07T09:00', 'at-work', 'mended')];
    const evidence = { ...QUESTION.evidence, silent: STATIONS.slice(2) };
    const keptClass = 'several-rooms';
    expect(clockOf({ ...QUESTION, evidence, keptClass }).troubleClass).toBe('one-room');
    expect(clockOf({ ...QUESTION, evidence, keptClass, entries }).troubleClass).toBe(keptClass);
  });
});
