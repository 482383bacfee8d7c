import { describe, expect, it } from '@jest/globals';
import { logSumExp } from './log-sum-exp.js';

describe('log of a sum of exponentials', () => {
  it('adds far outside the range of exp', () => {
    expect(logSumExp(Float64Array.of(-2000, -2000))).toBeCloseTo(-2000 + Math.LN2, 9);
    expect(logSumExp(Float64Array.of(-2000, -2000 + Math.log(3)))).toBeCloseTo(
      -2000 + Math.log(4),
      12,
    );
    expect(logSumExp(Float64Array.of(2000, -Infinity))).toBe(2000);
  });

  it('is -Infinity for nothing', () => {
    expect(logSumExp(Float64Array.of())).toBe(-Infinity);
    expect(logSumExp(Float64Array.of(-Infinity, -Infinity))).toBe(-Infinity);
  });
});
