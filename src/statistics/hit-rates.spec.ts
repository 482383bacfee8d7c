import { describe, expect, it } from '@jest/globals';
import { hitRates } from './hit-rates.js';

describe('hit rates', () => {
  it('counts first places and first three', () => {
    expect(hitRates([1, 1, 2, 3, 4, null, 1, 9])).toEqual({
      cases: 8,
      first: 3,
      firstThree: 5,
      firstShare: 3 / 8,
      firstThreeShare: 5 / 8,
    });
  });

  it('has no share without cases', () => {
    expect(hitRates([])).toMatchObject({ cases: 0, firstShare: null, firstThreeShare: null });
  });

  it('names a rank that is none', () => {
    expect(() => hitRates([1, 0])).toThrow('ranks/1');
    expect(() => hitRates([1.5])).toThrow('ranks/0');
  });
});
