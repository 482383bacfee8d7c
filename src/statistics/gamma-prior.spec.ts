import { describe, expect, it } from '@jest/globals';
import jstat from 'jstat';
import { gammaPriorFrom5095 } from './gamma-prior.js';

describe('gamma prior by the 50/95 method', () => {
  // NIST/SEMATECH e-Handbook 8.2.5 (read, recomputed in R 4.2.2).
  it('8.2.5: MTBF50 600, MTBF05 250: a = 2.863, b = 1522.5', () => {
    const { shape, hours } = gammaPriorFrom5095(600, 250);
    expect(shape).toBeCloseTo(2.863, 3);
    expect(hours).toBeCloseTo(1522.5, 1);
  });

  it.each([
    [600, 250],
    [1000, 900],
    [5000, 20],
  ])('puts half above 1/%d and 5 %% above 1/%d', (mtbf50, mtbf05) => {
    const { shape, hours } = gammaPriorFrom5095(mtbf50, mtbf05);
    expect(jstat.gamma.cdf(1 / mtbf50, shape, 1 / hours)).toBeCloseTo(0.5, 7);
    expect(jstat.gamma.cdf(1 / mtbf05, shape, 1 / hours)).toBeCloseTo(0.95, 7);
  });

  it.each([
    [250, 600],
    [600, 600],
    [600, 0],
    [Number.NaN, 250],
  ])('refuses %p and %p', (mtbf50, mtbf05) => {
    expect(() => gammaPriorFrom5095(mtbf50, mtbf05)).toThrow(
      expect.objectContaining({ name: 'StatisticsError' }),
    );
  });
});
