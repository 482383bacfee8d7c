import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';

import { contractYears, type PromisedVisits, visitSlots } from './contract-year.js';

const PLAIN: PromisedVisits = {
  from: '2026-01-01',
  until: '2027-01-01',
  visitsPerYear: 4,
  rhythm: null,
};

describe('the years of a contract', () => {
  it('come back to 29 February', () => {
    const years = contractYears({ from: '2024-02-29', until: '2029-02-28' });
    expect(years.map(({ from }) => from)).toEqual([
      '2024-02-29',
      '2025-02-28',
      '2026-02-28',
      '2027-02-28',
      '2028-02-29',
    ]);
    expect(years.at(-1)?.until).toBe('2029-02-28');
  });
});

describe('promised visits', () => {
  it('are spread evenly', () => {
    expect(visitSlots(PLAIN).map(({ from, until, ideal }) => [from, until, ideal])).toEqual([
      ['2026-01-01', '2026-04-02', '2026-02-15'],
      ['2026-04-02', '2026-07-03', '2026-05-17'],
      ['2026-07-03', '2026-10-02', '2026-08-17'],
      ['2026-10-02', '2027-01-01', '2026-11-16'],
    ]);
  });

  // RFC 5545 3.3.10 skips dates that do not exist: its "every three months on the 31st" loses April. A contract must not.
  it('on the 31st of each third month lose none', () => {
    const rhythm = { everyMonths: 3, onDay: 31 };
    const slots = visitSlots({ ...PLAIN, until: '2028-01-01', rhythm });
    expect(slots.map(({ ideal }) => ideal)).toEqual([
      '2026-01-31',
      '2026-04-30',
      '2026-07-31',
      '2026-10-31',
      '2027-01-31',
      '2027-04-30',
      '2027-07-31',
      '2027-10-31',
    ]);
    const late = visitSlots({ ...PLAIN, from: '2026-01-31', until: '2027-01-31', rhythm });
    expect(late.map(({ from, ideal }) => [from, ideal])).toEqual([
      ['2026-01-31', '2026-01-31'],
      ['2026-04-30', '2026-04-30'],
      ['2026-07-31', '2026-07-31'],
      ['2026-10-31', '2026-10-31'],
    ]);
  });

  it('move to the nearest allowed day, out of their slot only where all of it is closed', () => {
    const weekdaysOnly = (day: string) => ![0, 6].includes(new Date(`${day}T00:00Z`).getUTCDay());
    expect(visitSlots(PLAIN, weekdaysOnly).map(({ ideal }) => ideal)).toEqual([
      '2026-02-16',
      '2026-05-18',
      '2026-08-17',
      '2026-11-16',
    ]);
    const autumnClosed = visitSlots(PLAIN, (day) => day < '2026-10-01');
    expect(autumnClosed[3]).toMatchObject({ from: '2026-10-02', ideal: '2026-09-30' });
    expect(visitSlots(PLAIN, () => false).map(({ ideal }) => ideal)).toEqual([
      null,
      null,
      null,
      null,
    ]);
  });

  it('share out any contract without gap, overlap or loss, and evenly', () => {
    const start = Date.parse('2023-06-01');
    const contract = fc.record({
      day: fc.integer({ min: 0, max: 1500 }),
      days: fc.integer({ min: 1, max: 1400 }),
      visitsPerYear: fc.integer({ min: 1, max: 26 }),
      everyMonths: fc.constantFrom(null, 1, 2, 3, 4, 6, 12),
      onDay: fc.integer({ min: 1, max: 31 }),
    });
    fc.assert(
      fc.property(contract, ({ day, days, visitsPerYear, everyMonths, onDay }) => {
        const from = dayOf(start + day * 86_400_000);
        const until = dayOf(start + (day + days) * 86_400_000);
        const rhythm = everyMonths === null ? null : { everyMonths, onDay };
        const promised = everyMonths === null ? visitsPerYear : 12 / everyMonths;
        const slots = visitSlots({ from, until, visitsPerYear: promised, rhythm });
        expect(slots[0]?.from).toBe(from);
        expect(slots.at(-1)?.until).toBe(until);
        // One expectation for all slots: there are forty thousand.
        const apart = slots.slice(1).filter((slot, index) => slot.from !== slots[index]?.until);
        expect(apart).toEqual([]);
        const isWithin = ({ ideal, from: first, until: end }: (typeof slots)[number]) =>
          ideal !== null && first <= ideal && ideal < end;
        expect(slots.filter((slot) => !isWithin(slot))).toEqual([]);
        for (const year of contractYears({ from, until })) {
          const own = slots.filter((slot) => slot.year === year.number);
          const isWhole =
            contractYears({ from, until: '2099-01-01' }, year.number).at(-1)?.until === year.until;
          if (isWhole) expect(own).toHaveLength(promised);
          expect(own.length).toBeGreaterThan(0);
          const lengths = own.map(
            (slot) => (Date.parse(slot.until) - Date.parse(slot.from)) / 86_400_000,
          );
          if (rhythm === null)
            expect(Math.max(...lengths) - Math.min(...lengths)).toBeLessThanOrEqual(1);
        }
      }),
      { seed: 29, numRuns: 120 },
    );
  });
});

function dayOf(instant: number): string {
  return new Date(instant).toISOString().slice(0, 10);
}
