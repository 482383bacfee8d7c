import { describe, expect, it } from '@jest/globals';
import jstat from 'jstat';
import { gammaPriorFrom5095, mtbfPosterior } from './gamma-prior.js';

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

describe('posterior of an MTBF', () => {
  // NIST/SEMATECH e-Handbook 8.4.6 (memory, recomputed): prior a = 2, b = 1400; 2 failures in 1909 h.
  it('8.4.6: lower limits of 90 % 495 h and 80 % 600 h, median 901 h, upper 1897 h', () => {
    const prior = { shape: 2, hours: 1400 };
    const middle = (confidence: number) => mtbfPosterior(prior, 1909, 2, confidence);
    expect(middle(0.8)).toMatchObject({ shape: 4, hours: 3309 });
    expect(middle(0.8).lowHours).toBeCloseTo(495.3, 0);
    expect(middle(0.8).highHours / 1897).toBeCloseTo(1, 3);
    expect(middle(0.6).lowHours).toBeCloseTo(600, 0);
    expect(middle(0.8).medianHours).toBeCloseTo(901, 0);
  });

  it('is the prior before there is a record, and the record where it is long', () => {
    const prior = gammaPriorFrom5095(600, 250);
    expect(mtbfPosterior(prior, 0, 0, 0.9)).toMatchObject(prior);
    expect(mtbfPosterior(prior, 0, 0, 0.9).medianHours).toBeCloseTo(600, 6);
    expect(mtbfPosterior(prior, 0, 0, 0.9).lowHours).toBeCloseTo(250, 6);
    expect(mtbfPosterior(prior, 4e6, 4000, 0.9).medianHours / 1000).toBeCloseTo(1, 2);
  });

  it.each([
    ['hours', -1, 2, 0.9],
    ['failures', 10, -1, 0.9],
    ['confidence', 10, 1, 1],
  ] as const)('names %s', (field, hours, failures, confidence) => {
    expect(() => mtbfPosterior({ shape: 2, hours: 10 }, hours, failures, confidence)).toThrow(
      expect.objectContaining({ field }),
    );
  });
});
