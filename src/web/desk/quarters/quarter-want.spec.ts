import { describe, expect, it } from '@jest/globals';
import {
  chosenOf,
  heldOf,
  isWanting,
  NOTHING_WANTED,
  settledWant,
  wishOf,
} from './quarter-want.js';

const visit = { contractId: 'c', siteId: 's', year: 1, ordinal: 2 };
const place = { on: '2026-03-03', technicianId: 'ilvo' };
const want = (more: object) => ({ ...NOTHING_WANTED, ...more });

describe('what is wanted of a promised visit', () => {
  it('names the place where it stays', () => {
    const kept = settledWant(want({ kind: 'stay', notOn: ['2026-03-02'] }), place);
    expect(kept).toMatchObject({ kind: 'move', ...place, notOn: [] });
  });

  it('rules out one place after the other, until somebody names one', () => {
    const first = settledWant(want({ kind: 'not-then' }), place);
    expect(first).toMatchObject({ kind: 'best', notOn: ['2026-03-03'], notBy: [] });
    const second = settledWant({ ...first, kind: 'not-who' }, { ...place, on: '2026-03-04' });
    expect(second).toMatchObject({ notOn: ['2026-03-03'], notBy: ['ilvo'] });
    const again = settledWant({ ...second, kind: 'not-who' }, place);
    expect(again.notBy).toEqual(['ilvo']);
    expect(settledWant({ ...second, kind: 'left' }, place)).toMatchObject({ notOn: [], notBy: [] });
    expect(isWanting(settledWant(want({}), place))).toBe(false);
    expect(isWanting(second)).toBe(true);
  });

  it('is kept and read again as it was', () => {
    const said = { changedBy: 'Bea Orne', changedAt: '2026-03-02T08:00:00Z', version: 3 };
    const wants = [
      want({ kind: 'left', reason: 'Works' }),
      want({ kind: 'move', on: '2026-03-03', reason: 'Keys' }),
      want({ kind: 'move', technicianId: 'ilvo', reason: 'Keys' }),
      want({ notOn: ['2026-03-03'], notBy: ['ilvo'], skills: ['tower'], reason: 'Keys' }),
      want({}),
    ];
    for (const one of wants) {
      const kept = { ...wishOf(visit, one), ...said };
      expect(heldOf([kept])).toEqual({ 'c s 1 2': { ...one, ...said } });
    }
    expect(wishOf(visit, wants[0]!)).toMatchObject({ ...visit, on: null, isLeft: true });
  });

  it('is booked with the visit', () => {
    const kept = want({ kind: 'move', technicianId: 'ilvo', reason: 'Has the keys' });
    expect(chosenOf({ ...visit, ...place }, kept)).toEqual({
      siteId: 's',
      ...place,
      pinnedTo: 'ilvo',
      notBy: [],
      skills: [],
      reason: 'Has the keys',
    });
    expect(chosenOf({ ...visit, ...place }, undefined)).toMatchObject({ reason: null });
  });
});
