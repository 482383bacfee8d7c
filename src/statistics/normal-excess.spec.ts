import { describe, expect, it } from '@jest/globals';
import { chanceAboveZero, expectedExcess, varianceOfExcess } from './normal-excess.js';

/** By the trapezium rule over twelve deviations to each side. */
function moments(mean: number, deviation: number) {
  const step = 0.001;
  let [chance, first, second] = [0, 0, 0];
  for (let z = -12; z <= 12; z += step) {
    const weight = (Math.exp(-(z ** 2) / 2) / Math.sqrt(2 * Math.PI)) * step;
    const above = Math.max(0, mean + deviation * z);
    if (above > 0) chance += weight;
    first += weight * above;
    second += weight * above ** 2;
  }
  return { chance, first, variance: second - first ** 2 };
}

describe('what of a normal lies above zero', () => {
  it.each([
    [0, 10],
    [-15, 10],
    [25, 10],
    [-40, 7],
    [3, 0.5],
  ])('of mean %p and deviation %p is as integrated', (mean, deviation) => {
    const { chance, first, variance } = moments(mean, deviation);
    expect(chanceAboveZero(mean, deviation)).toBeCloseTo(chance, 3);
    expect(expectedExcess(mean, deviation)).toBeCloseTo(first, 4);
    expect(varianceOfExcess(mean, deviation)).toBeCloseTo(variance, 3);
  });

  it('is what it is without a deviation, and at infinity', () => {
    expect([expectedExcess(5, 0), expectedExcess(-5, 0)]).toEqual([5, 0]);
    expect([chanceAboveZero(5, 0), chanceAboveZero(0, 0)]).toEqual([1, 0]);
    expect([expectedExcess(-Infinity, 3), varianceOfExcess(-Infinity, 3)]).toEqual([0, 0]);
  });

  it('never falls as mean or deviation grow', () => {
    for (let mean = -60; mean < 60; mean += 5) {
      for (let deviation = 1; deviation < 40; deviation += 3) {
        for (const of of [expectedExcess, varianceOfExcess]) {
          expect(of(mean + 5, deviation)).toBeGreaterThanOrEqual(of(mean, deviation) - 1e-9);
          expect(of(mean, deviation + 3)).toBeGreaterThanOrEqual(of(mean, deviation) - 1e-9);
        }
      }
    }
  });
});
