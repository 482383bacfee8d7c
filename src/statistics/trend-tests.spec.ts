import { describe, expect, it } from '@jest/globals';
import { seededRandom } from './seeded-random.js';
import { trendTests } from './trend-tests.js';

/** The failures of NIST/SEMATECH e-Handbook 8.4.5.2, T = 1500 h (values read; the tests of them 8.2.3.4, memory, recomputed). */
const IMPROVED = [5, 40, 43, 175, 389, 712, 747, 795, 1299, 1478];

describe('trend tests', () => {
  it('8.2.3.4: 33 of 45 pairs in order; 2 Σ ln(T/t) 37.23; Laplace -1.327', () => {
    const { laplace, logSum, reverseArrangements, warning } = trendTests(IMPROVED, 1500);
    expect(reverseArrangements?.statistic).toBe(33);
    expect(logSum?.statistic).toBeCloseTo(37.228, 2);
    expect(laplace?.statistic).toBeCloseTo(-1.327, 3);
    // χ² with 20 degrees exceeds 37.57 with 1 % and 34.17 with 2.5 % (tables).
    expect(logSum?.pRarer).toBeGreaterThan(0.01);
    expect(logSum?.pRarer).toBeLessThan(0.025);
    expect(laplace?.pRarer).toBeCloseTo(0.0923, 3);
    expect(warning).toBeNull();
  });

  it('counts orders exactly: of the 24 of four gaps, one has all six pairs in order', () => {
    const growing = trendTests([1, 3, 6, 10], 16).reverseArrangements;
    expect(growing).toMatchObject({ statistic: 6 });
    expect(growing?.pRarer).toBeCloseTo(1 / 24, 12);
    expect(growing?.pMoreFrequent).toBeCloseTo(1, 12);
  });

  it('is the other way round where failures crowd at the end', () => {
    const { laplace, logSum, reverseArrangements } = trendTests([40, 65, 80, 90, 96, 99], 100);
    for (const test of [laplace, logSum, reverseArrangements]) {
      expect(test?.pMoreFrequent).toBeLessThan(0.05);
      expect(test?.pRarer).toBeGreaterThan(0.95);
    }
  });

  it('cries wolf as often as it says where there is no trend: 5 % of 2,000 records', () => {
    const random = seededRandom(12);
    const records = Array.from({ length: 2000 }, () => {
      return trendTests(
        Array.from({ length: 12 }, () => 1000 * (1 - random())),
        1000,
      );
    });
    for (const name of ['laplace', 'logSum', 'reverseArrangements'] as const) {
      const alarms = records.filter((tests) => (tests[name]?.pRarer ?? 1) < 0.05).length / 2000;
      expect(alarms).toBeGreaterThan(0.03);
      expect(alarms).toBeLessThan(0.065);
    }
  });

  it('says that few failures tell little, and that three tell nothing', () => {
    expect(trendTests([1, 2, 3], 10)).toMatchObject({ warning: 'too-few', laplace: null });
    expect(trendTests([1, 2, 3, 9], 10)).toMatchObject({ failures: 4, warning: 'few' });
  });

  it.each([
    ['failureHours/1', [5, 101, 7, 8], 100],
    ['failureHours/0', [0, 50], 100],
    ['endHours', [5, 50], 0],
  ] as const)('names %s', (field, failures, end) => {
    expect(() => trendTests(failures, end)).toThrow(expect.objectContaining({ field }));
  });
});
