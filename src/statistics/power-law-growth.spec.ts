import { describe, expect, it } from '@jest/globals';
import { powerLawGrowth } from './power-law-growth.js';

describe('power law', () => {
  // NIST/SEMATECH e-Handbook 8.4.5.2 (read, recomputed in R 4.2.2).
  it('8.4.5.2: growth 0.516494, MTBF(1500) 310.234', () => {
    const failures = [5, 40, 43, 175, 389, 712, 747, 795, 1299, 1478];
    const { growth, mtbfHours } = powerLawGrowth(failures, 1500);
    expect(growth).toBeCloseTo(0.516494, 6);
    expect(mtbfHours).toBeCloseTo(310.234, 3);
  });

  it('is negative where failures crowd at the end', () => {
    expect(powerLawGrowth([800, 900, 950, 990], 1000).growth).toBeLessThan(0);
  });

  it.each([
    ['failureHours', [5], 100],
    ['failureHours', [100, 100], 100],
    ['failureHours/1', [5, 101], 100],
    ['failureHours/0', [0, 50], 100],
    ['endHours', [5, 50], Number.NaN],
  ] as const)('names %s', (field, failures, end) => {
    expect(() => powerLawGrowth(failures, end)).toThrow(expect.objectContaining({ field }));
  });
});
