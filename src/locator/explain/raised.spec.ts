import { describe, expect, it } from '@jest/globals';
import { isRaised } from './raised.js';

describe('a place worth naming with an explanation', () => {
  it('has twice the odds that it had before', () => {
    expect(isRaised(0.5, 0.3)).toBe(true);
    expect(isRaised(0.5, 0.34)).toBe(false);
    expect(isRaised(1, 0.9)).toBe(true);
  });

  it('is not too improbable', () => {
    expect(isRaised(0.0009, 0)).toBe(false);
    expect(isRaised(0.001, 0)).toBe(true);
  });
});
