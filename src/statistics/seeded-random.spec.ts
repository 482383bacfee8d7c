import { describe, expect, it } from '@jest/globals';
import { seededRandom } from './seeded-random.js';

describe('seeded random', () => {
  it('is the same for the same seed, and spread over [0, 1)', () => {
    const [one, again, other] = [seededRandom(1), seededRandom(1), seededRandom(2)];
    const draws = Array.from({ length: 1000 }, one);
    expect(Array.from({ length: 1000 }, again)).toEqual(draws);
    expect(other()).not.toBe(draws[0]);
    const tenths = new Array<number>(10).fill(0);
    for (const draw of draws) tenths[Math.floor(draw * 10)]!++;
    expect(Math.min(...tenths)).toBeGreaterThan(60);
    expect(Math.max(...tenths)).toBeLessThan(140);
  });
});
