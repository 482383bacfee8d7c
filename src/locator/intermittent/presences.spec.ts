import { describe, expect, it } from '@jest/globals';
import { presences } from './presences.js';

describe('presences', () => {
  it('are all subsets, and their chances add up to one', () => {
    const all = presences([3, 5, 9]);
    expect(new Set(all.map(({ sittings }) => [...sittings].join())).size).toBe(8);
    expect(all.reduce((sum, { chance }) => sum + chance, 0)).toBeCloseTo(1, 12);
    const [two] = all.filter(({ sittings }) => [...sittings].join() === '3,9');
    expect(two?.chance).toBeCloseTo(0.4 * 0.4 * 0.6, 12);
  });

  it('without sittings are one: in none', () => {
    expect(presences([])).toEqual([{ sittings: new Set(), chance: 1 }]);
  });
});
