import { describe, expect, it } from '@jest/globals';
import { type KeptPromise, newsOf, toKeep } from './kept-clock.js';
import type { PromiseClock, TicketClock } from './ticket-clock.js';

const NOON = Date.parse('2026-03-02T12:00:00Z');
const HOUR = 3_600_000;

function clockAt(...promises: Pick<PromiseClock, 'promise' | 'state' | 'dueAt'>[]): TicketClock {
  const same = { promisedMinutes: 60, leftMs: 0, warnAt: null, doneAt: null, takenMs: 0 };
  return {
    ticketId: 'a',
    zone: 'UTC',
    contractId: 'c',
    contractTitle: 'Upkeep',
    reportedAt: NOON - 9 * HOUR,
    recordedAt: NOON,
    troubleClass: 'one-room',
    computedClass: 'one-room',
    overrideReason: null,
    pauses: [],
    promises: promises.map((one) => ({ ...same, cause: null, lines: [], ...one })),
    none: null,
  };
}

const response = (state: PromiseClock['state'], dueAt: number) =>
  clockAt({ promise: 'response', state, dueAt });

/** What is told by one reckoning after another, the first after nothing. */
function told(...clocks: TicketClock[]): string[] {
  let before: { kept: KeptPromise[]; told: ReturnType<typeof newsOf>['told'] } = {
    kept: [],
    told: {},
  };
  return clocks.flatMap((clock) => {
    const { news, told: now } = newsOf(clock, before, NOON);
    before = { kept: toKeep(clock, NOON).kept, told: now };
    return news.map(({ kind, dueAt, wasDueAt }) => {
      const hour = (at: string | null | undefined) => at?.slice(11, 13) ?? '';
      return `${kind} ${hour(dueAt)}${wasDueAt === undefined ? '' : ` was ${hour(wasDueAt)}`}`;
    });
  });
}

describe('what a log is told of a clock', () => {
  it('is a breach once, and no further one when what was due moves and stays unkept', () => {
    const [early, late] = [NOON - 4 * HOUR, NOON - 2 * HOUR];
    expect(told(response('breached', late), response('breached', late))).toEqual([
      'promise-breach 10',
    ]);
    expect(
      told(
        response('breached', late),
        response('breached', early),
        response('breached', early),
        response('breached', late),
      ),
    ).toEqual(['promise-breach 10', 'promise-changed 08 was 10', 'promise-changed 10 was 08']);
  });

  it('is one line where what is due moves into the past', () => {
    const [ahead, past] = [NOON + HOUR, NOON - 2 * HOUR];
    expect(told(response('running', ahead), response('breached', past))).toEqual([
      'promise-breach 10 was 13',
    ]);
  });

  it('is a breach anew once there was time again', () => {
    const [ahead, past] = [NOON + HOUR, NOON - 2 * HOUR];
    expect(
      told(
        response('breached', past),
        response('running', ahead),
        response('running', ahead),
        response('breached', ahead),
      ),
    ).toEqual(['promise-breach 10', 'promise-changed 13 was 10', 'promise-breach 13']);
  });
});
