import { describe, expect, it } from '@jest/globals';
import { complementaryError } from './complementary-error.js';

describe('complementaryError', () => {
  // Abramowitz and Stegun, table 7.1 and usual values; memory.
  it.each([
    [0, 1],
    [0.5, 0.4795001221869535],
    [1, 0.15729920705028513],
    [2, 0.004677734981047266],
    [3, 2.209049699858544e-5],
    [5, 1.5374597944280349e-12],
    [10, 2.088487583762545e-45],
  ])('of %d', (x, value) => {
    expect(Math.abs(complementaryError(x) / value - 1)).toBeLessThan(2e-13);
  });

  it('goes on smoothly where the series ends', () => {
    const slope = (complementaryError(2.001) - complementaryError(1.999)) / 0.002;
    expect(slope).toBeCloseTo((-2 / Math.sqrt(Math.PI)) * Math.exp(-4), 6);
  });
});
