import { describe, expect, it } from '@jest/globals';
import { mtbfLimits } from './mtbf-limits.js';

describe('limits of the MTBF', () => {
  // NIST/SEMATECH e-Handbook 8.4.5.1 (read, recomputed in R 4.2.2).
  it('8.4.5.1: T = 800 h, r = 2, 90 % two-sided: 400, 127.0690 and 2251.229', () => {
    const { mtbfHours, lowHours, highHours } = mtbfLimits(800, 2, 0.9);
    expect(mtbfHours).toBe(400);
    expect(lowHours).toBeCloseTo(127.069, 3);
    expect(highHours).toBeCloseTo(2251.229, 3);
  });

  // NIST/SEMATECH e-Handbook 8.4.5.1: one-sided with no failures, T/(-ln α).
  it('without failures: T/(-ln α), and no upper limit', () => {
    const { mtbfHours, lowHours, highHours } = mtbfLimits(1000, 0, 0.95);
    expect(lowHours).toBeCloseTo(1000 / -Math.log(0.05), 9);
    expect([mtbfHours, highHours]).toEqual([null, null]);
  });

  it.each([
    ['hours', 0, 2, 0.9],
    ['failures', 800, 1.5, 0.9],
    ['failures', 800, -1, 0.9],
    ['confidence', 800, 2, 1],
    ['confidence', 800, 2, Number.NaN],
  ] as const)('names %s', (field, hours, failures, confidence) => {
    expect(() => mtbfLimits(hours, failures, confidence)).toThrow(
      expect.objectContaining({ field }),
    );
  });
});
