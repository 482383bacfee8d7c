import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';

import { visitSlots } from './contract-year.js';
import { standOf, type UpkeepVisit } from './kept-visits.js';

const SLOTS = visitSlots({
  from: '2026-01-01',
  until: '2028-01-01',
  visitsPerYear: 2,
  rhythm: null,
});

const done = (id: string, on: string): UpkeepVisit => ({ id, on, isDone: true });
const planned = (id: string, on: string): UpkeepVisit => ({ id, on, isDone: false });

function standings(visits: UpkeepVisit[], today: string): string[] {
  return standOf(SLOTS, visits, today).slots.map(({ standing }) => standing);
}

describe('promised visits', () => {
  it('are to come, due, late and missed as time goes by', () => {
    expect(standings([], '2025-12-01')).toEqual(['to-come', 'to-come', 'to-come', 'to-come']);
    expect(standings([], '2026-03-01')).toEqual(['due', 'to-come', 'to-come', 'to-come']);
    expect(standings([], '2026-08-01')).toEqual(['late', 'due', 'to-come', 'to-come']);
    expect(standings([], '2027-08-01')).toEqual(['missed', 'missed', 'late', 'due']);
  });

  it('are kept by the visit that was made in their time, or caught up by one more', () => {
    expect(standings([done('a', '2026-03-01')], '2026-03-02')[0]).toBe('done');
    expect(standings([done('a', '2026-08-01')], '2026-09-01')).toEqual([
      'late',
      'done',
      'to-come',
      'to-come',
    ]);
    const two = [done('a', '2026-08-01'), done('b', '2026-11-01')];
    expect(standings(two, '2026-12-01').slice(0, 2)).toEqual(['done-late', 'done']);
    expect(standings([...two, done('c', '2026-12-20')], '2026-12-21').slice(0, 3)).toEqual([
      'done-late',
      'done',
      'done',
    ]);
  });

  it('are not lost when the year is over: what is made up in the next counts for the one before', () => {
    const visits = [done('a', '2026-03-01'), done('b', '2027-02-01'), done('c', '2027-05-01')];
    const { slots } = standOf(SLOTS, visits, '2027-06-01');
    expect(slots.map(({ standing, visitId }) => [standing, visitId])).toEqual([
      ['done', 'a'],
      ['done-late', 'c'],
      ['done', 'b'],
      ['to-come', null],
    ]);
  });

  it('are planned by a visit still to be made, and not by one whose day went by', () => {
    expect(standings([planned('a', '2026-03-10')], '2026-03-01')[0]).toBe('planned');
    expect(standings([planned('a', '2026-03-10')], '2026-04-01')[0]).toBe('due');
  });

  it('take each visit once, and say which were made beyond what was promised', () => {
    const slot = fc.record({ day: fc.integer({ min: 0, max: 729 }), isDone: fc.boolean() });
    fc.assert(
      fc.property(fc.array(slot, { maxLength: 9 }), (sent) => {
        const visits = sent.map(({ day, isDone }, index) => ({
          id: String(index),
          on: new Date(Date.parse('2026-01-01') + day * 86_400_000).toISOString().slice(0, 10),
          isDone,
        }));
        const { slots, further } = standOf(SLOTS, visits, '2027-03-01');
        const used = slots.flatMap(({ visitId }) => visitId ?? []);
        expect([...used, ...further].sort()).toEqual(visits.map(({ id }) => id).sort());
        const doneVisits = visits.filter(({ isDone }) => isDone).length;
        const kept = slots.filter(({ standing }) => standing.startsWith('done')).length;
        expect(kept).toBeLessThanOrEqual(doneVisits);
        expect(slots).toHaveLength(SLOTS.length);
      }),
      { seed: 4, numRuns: 300 },
    );
  });
});
