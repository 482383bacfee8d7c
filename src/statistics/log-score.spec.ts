import { describe, expect, it } from '@jest/globals';
import { logScoreBits } from './log-score.js';

describe('log score', () => {
  it('is the mean surprise in bits', () => {
    expect(logScoreBits([0.5, 0.25, 1])).toBe(1);
    expect(logScoreBits([1])).toBe(0);
    expect(logScoreBits([])).toBeNull();
  });

  it('names a case that had no chance, or was none', () => {
    expect(() => logScoreBits([0.5, 0])).toThrow('cases/1: what was found had no chance');
    expect(() => logScoreBits([1.5])).toThrow('cases/0');
  });
});
