import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { isotonicFit } from '#app/statistics/isotonic-fit.js';
import { reliabilityCurve } from '#app/statistics/reliability-curve.js';
import { seededRandom } from '../electrical/seeded-random.js';
import { cases } from '../support/thorough.js';

/** Slow oracle: the max-min formula of isotonic regression. */
function maxMin(values: { value: number; weight: number }[]): number[] {
  const mean = (a: number, b: number) => {
    const part = values.slice(a, b + 1);
    const weight = part.reduce((sum, x) => sum + x.weight, 0);
    return part.reduce((sum, x) => sum + x.value * x.weight, 0) / weight;
  };
  const indices = values.map((_, i) => i);
  return indices.map((i) =>
    Math.max(
      ...indices.slice(0, i + 1).map((a) => Math.min(...indices.slice(i).map((b) => mean(a, b)))),
    ),
  );
}

describe('pool adjacent violators', () => {
  it('agrees with the max-min formula', () => {
    const value = fc.record({
      value: fc.integer({ min: -20, max: 20 }),
      weight: fc.integer({ min: 1, max: 5 }),
    });
    fc.assert(
      fc.property(fc.array(value, { maxLength: 12, size: 'max' }), (values) => {
        const slow = maxMin(values);
        isotonicFit(values).forEach((fitted, i) => expect(fitted).toBeCloseTo(slow[i]!, 9));
      }),
      { seed: 5, numRuns: 200 },
    );
  });
});

describe('the band of a reliability curve', () => {
  /** Share of forecasts outside the band when what is stated comes true by `truth`. */
  function outside(truth: (stated: number) => number, seed: number): number {
    const random = seededRandom(seed);
    const forecasts = Array.from({ length: 300 }, () => {
      const stated = Math.round(random() * 20) / 20;
      return { stated, cameTrue: random() < truth(stated) };
    });
    const curve = reliabilityCurve(forecasts, { random, resamples: 200, coverage: 0.9 });
    const out = curve.filter(({ observed, low, high }) => observed < low || observed > high);
    return out.reduce((sum, { count }) => sum + count, 0) / forecasts.length;
  }
  const mean = (truth: (stated: number) => number) => {
    const shares = Array.from({ length: cases({ all: 40, usual: 12 }) }, (_, seed) =>
      outside(truth, seed + 1),
    );
    return shares.reduce((sum, share) => sum + share, 0) / shares.length;
  };

  it('holds nine tenths of an honest forecaster', () => {
    const share = mean((stated) => stated);
    expect(share).toBeGreaterThan(0.03);
    expect(share).toBeLessThan(0.15);
  });

  it('leaves out an overconfident one', () => {
    expect(mean((stated) => 0.5 + 0.5 * (stated - 0.5))).toBeGreaterThan(0.5);
  });
});
