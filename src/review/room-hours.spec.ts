import { describe, expect, it } from '@jest/globals';
import type { CoverageCalendar } from '../contracts/coverage.js';
import { blankNode } from '../sites/as-built-fields.js';
import { NOTHING_DRAWN } from '../sites/as-built.js';
import { seededRandom } from '../statistics/seeded-random.js';
import { roomHours, type SilentTicket } from './room-hours.js';

const MINUTE = 60_000;
const MONDAY = Date.parse('2026-03-02T00:00:00Z');
const CALENDAR: CoverageCalendar = {
  zone: 'Etc/UTC',
  windows: [1, 2, 3].map((weekday) => ({ weekday, from: '08:00', until: '12:00' })),
  closed: { '2026-03-03': { why: 'closed-day', name: 'Market' } },
};

function drawn(rooms: number) {
  const nodes = Array.from({ length: rooms }, (_, i) => ({
    ...blankNode(`A${i + 1}`),
    fedFrom: i === 0 ? null : `A${i}`,
    lacks: i === 0 ? (['music'] as const).slice() : [],
  }));
  return { ...NOTHING_DRAWN, trunks: [{ trunk: 'A', name: 'A', port: null, nodes }] };
}

const bell = (node: string, outcome: 'works' | 'weak' | 'fails', minute: number) => ({
  trunk: 'A',
  node,
  function: 'bell' as const,
  outcome,
  at: MONDAY + minute * MINUTE,
});

describe('room-hours', () => {
  const week = { from: MONDAY, until: MONDAY + 7 * 24 * 60 * MINUTE };
  const hoursOf = (name: string, tickets: SilentTicket[]) =>
    roomHours(drawn(3), tickets, CALENDAR, week).find((one) => one.function === name);

  it('are covered hours times rooms that can: Monday and Wednesday, not the closed Tuesday', () => {
    expect(hoursOf('bell', [])).toMatchObject({ rooms: 3, roomHours: 24, lostRoomHours: 0 });
    expect(hoursOf('music', [])).toMatchObject({ rooms: 2, roomHours: 16 });
  });

  it('are lost from the report until it was heard, restored or closed; what two say counts once', () => {
    const restoredAt = MONDAY + 11 * 60 * MINUTE;
    const one = { said: [bell('A2', 'fails', 9 * 60)], restoredAt, closedAt: null };
    const other = { said: [bell('A2', 'weak', 10 * 60)], restoredAt, closedAt: null };
    expect(hoursOf('bell', [one])?.lostRoomHours).toBe(2);
    expect(hoursOf('bell', [one, other])?.lostRoomHours).toBe(2);
    const heard = { ...one, said: [...one.said, bell('A2', 'works', 9 * 60 + 30)] };
    expect(hoursOf('bell', [heard])?.lostRoomHours).toBe(0.5);
    // Never mended: until the end of the time that is asked about.
    expect(hoursOf('bell', [{ ...one, restoredAt: null }])?.lostRoomHours).toBe(3 + 4);
  });

  it('agree with a count minute by minute', () => {
    const random = seededRandom(7);
    const whole = (below: number) => Math.floor(random() * below);
    for (let round = 0; round < 40; round++) {
      const tickets = Array.from({ length: 3 }, (): SilentTicket => {
        const said = Array.from({ length: 4 }, () =>
          bell(`A${1 + whole(3)}`, random() < 0.6 ? 'fails' : 'works', 7 * 60 + whole(3000)),
        );
        const end = MONDAY + whole(5000) * MINUTE;
        return { said, restoredAt: random() < 0.5 ? end : null, closedAt: null };
      });
      expect(hoursOf('bell', tickets)?.lostRoomHours).toBeCloseTo(byMinute(tickets) / 60, 9);
    }
  });
});

/** Of each minute: whether the last word of some ticket about the room, up to its restoring, was that it is silent. */
function byMinute(tickets: readonly SilentTicket[]): number {
  let lost = 0;
  for (let minute = 0; minute < 7 * 24 * 60; minute++) {
    const day = Math.floor(minute / 1440);
    const time = minute % 1440;
    if (![0, 2].includes(day) || time < 480 || time >= 720) continue;
    const at = MONDAY + minute * MINUTE;
    for (const node of ['A1', 'A2', 'A3']) {
      const isSilent = tickets.some(({ said, restoredAt }) => {
        const own = said.filter((one) => one.node === node).toSorted((a, b) => a.at - b.at);
        const before = own.filter((one) => one.at <= at);
        if (before.at(-1)?.outcome !== 'fails') return false;
        const lastHeard = before.findLastIndex(({ outcome }) => outcome === 'works');
        const begun = before[lastHeard + 1]?.at ?? at;
        return restoredAt === null || restoredAt < begun || at < restoredAt;
      });
      if (isSilent) lost++;
    }
  }
  return lost;
}
