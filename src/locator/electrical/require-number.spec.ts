import { describe, expect, it } from '@jest/globals';
import { requireNonNegative, requirePositive } from './require-number.js';

describe('required numbers', () => {
  it('passes what is in range', () => {
    expect(requireNonNegative('metres', 0)).toBe(0);
    expect(requirePositive('metres', 0.5)).toBe(0.5);
  });

  it.each([Number.NaN, Infinity, -1])('names the field of %p', (value) => {
    const error = expect.objectContaining({ code: 'invalid', field: 'metres' });
    expect(() => requireNonNegative('metres', value)).toThrow(error);
    expect(() => requirePositive('metres', value)).toThrow(error);
  });

  it('takes zero for not positive', () => {
    expect(() => requirePositive('ohms', 0)).toThrow('ohms: must be a number above 0, is 0');
  });
});
