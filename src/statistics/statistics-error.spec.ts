import { describe, expect, it } from '@jest/globals';
import { requireWithin } from './statistics-error.js';

describe('numbers within a range', () => {
  it('passes both ends', () => {
    expect([requireWithin('share', 0, 0, 1), requireWithin('share', 1, 0, 1)]).toEqual([0, 1]);
  });

  it.each([-0.1, 1.1, Number.NaN, Infinity])('names the field of %p', (value) => {
    expect(() => requireWithin('share', value, 0, 1)).toThrow(
      expect.objectContaining({ name: 'StatisticsError', field: 'share' }),
    );
  });

  it('takes no infinity for a number without an upper end', () => {
    expect(() => requireWithin('hours', Infinity, 0, Infinity)).toThrow('hours');
  });
});
