import { describe, expect, it } from '@jest/globals';
import { DEFAULT_ERROR_RATES, type InformantErrors } from '../../plan/error-rates.js';
import { informationBits } from './information.js';

const CERTAIN: InformantErrors = { good: [1, 0, 0], weak: [0, 1, 0], dead: [0, 0, 1], confused: 0 };

describe('information of a check', () => {
  it('is the entropy of the condition when the informant makes no mistakes', () => {
    expect(informationBits(0.5, 0, 0.5, CERTAIN)).toBe(1);
    expect(informationBits(0.25, 0.5, 0.25, CERTAIN)).toBe(1.5);
  });

  it('is nothing when the condition is certain', () => {
    expect(informationBits(0, 0, 1, DEFAULT_ERROR_RATES.office)).toBe(0);
  });

  it('is H(outcome) - E[H(outcome | condition)]', () => {
    const { technician } = DEFAULT_ERROR_RATES;
    const entropy = (list: readonly number[]) => list.reduce((sum, p) => sum - p * Math.log2(p), 0);
    const outcomes = [0, 1, 2].map(
      (o) =>
        0.6 * (technician.good[o] ?? 0) +
        0.1 * (technician.weak[o] ?? 0) +
        0.3 * (technician.dead[o] ?? 0),
    );
    const expected =
      entropy(outcomes) -
      0.6 * entropy(technician.good) -
      0.1 * entropy(technician.weak) -
      0.3 * entropy(technician.dead);
    expect(informationBits(0.6, 0.1, 0.3, technician)).toBeCloseTo(expected, 14);
  });
});
