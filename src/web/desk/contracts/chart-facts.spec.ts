import { describe, expect, it } from '@jest/globals';

import { costParts, expectedFailures, failuresOf, heldAgainst } from './chart-facts.js';

const clock = (reportedAt: string, ...taken: [string, number, string][]) => ({
  reportedAt,
  promises: taken.map(([promise, minutesTaken, state]) => {
    return { promise, minutesTaken, promisedMinutes: 240, state };
  }),
});
const ticket = (number: number, more: object) =>
  ({
    number,
    siteId: 's',
    found: [],
    mended: [],
    clock: clock('2026-03-01T00:00:00Z'),
    ...more,
  }) as never;

describe('what charts are drawn from', () => {
  const year = { labourMinor: 100, travelMinor: 50, partsMinor: 20, partsArePaidFor: false };

  it('is what a year cost, parts the firm pays alone', () => {
    expect(costParts(year as never)).toEqual([100, 50, 20]);
    expect(costParts({ ...year, partsArePaidFor: true } as never)).toEqual([100, 50, 0]);
    expect(costParts({ ...year, partsMinor: null } as never)).toEqual([100, 50, 0]);
    expect(costParts({ ...year, travelMinor: null } as never)).toBeNull();
  });

  it('is each promise in hours, of too many those that took most', () => {
    const tickets = [
      ticket(9, { clock: clock('', ['response', 60, 'met'], ['restore', 480, 'breached']) }),
      ticket(4, { clock: clock('', ['response', 120, 'running']) }),
    ];
    const all = heldAgainst(tickets, 5);
    expect(all.left).toBe(0);
    expect(all.shown.map(({ number, takenHours }) => [number, takenHours])).toEqual([
      [4, 2],
      [9, 1],
      [9, 8],
    ]);
    expect(all.shown[0]).toMatchObject({ promisedHours: 4, isOpen: true });
    const few = heldAgainst(tickets, 2);
    expect(few.left).toBe(1);
    expect(few.shown.map(({ takenHours }) => takenHours)).toEqual([2, 8]);
  });

  it('is what was found and mended, in the order in which it was reported', () => {
    const [found, nothing] = [[{ words: 'a joint' }], [{ words: null }]];
    const failures = failuresOf([
      ticket(1, { found, mended: [{}], clock: clock('2026-05-01T00:00:00Z') }),
      ticket(2, { found: nothing, mended: [{}] }),
      ticket(3, { found }),
      ticket(5, { found, mended: [{}], clock: clock('2026-04-01T00:00:00Z') }),
    ]);
    expect(failures.map(({ number, count }) => [number, count])).toEqual([
      [5, 1],
      [1, 2],
    ]);
  });

  it('is what the limits let expect of all sites until then, and none after the record ends', () => {
    const reliability = { lowHours: 240, mtbfHours: 480, highHours: null, since: '2025-01-01' };
    const review = {
      from: '2026-01-01',
      asOf: '2026-01-21T00:00:00Z',
      sites: [{}, {}],
      reliability,
    };
    const at = (day: string) => expectedFailures(review as never, Date.parse(day));
    expect(at('2026-01-11')).toEqual({ least: 0, mean: 1, most: 2 });
    expect(at('2026-12-31')).toEqual({ least: 0, mean: 2, most: 4 });
    const young = { ...review, reliability: { ...reliability, since: '2026-01-11' } };
    expect(expectedFailures(young as never, Date.parse('2026-01-16'))?.mean).toBe(0.5);
    expect(expectedFailures({ ...review, reliability: null } as never, 0)).toBeNull();
  });
});
