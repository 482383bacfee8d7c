import { describe, expect, it } from '@jest/globals';
import { logSum } from './log-sum.js';

describe('logSum', () => {
  it('adds up what exp would lose', () => {
    expect(logSum([-2000, -2000 + Math.log(3)])).toBeCloseTo(-2000 + Math.log(4), 12);
    expect(logSum([-Infinity, 5])).toBe(5);
    expect(logSum([])).toBe(-Infinity);
  });
});
