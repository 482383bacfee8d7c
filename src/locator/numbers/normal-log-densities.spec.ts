import { describe, expect, it } from '@jest/globals';
import { normalLogDensities } from './normal-log-densities.js';

const logNormal = (x: number, deviation: number) =>
  -0.5 * Math.log(2 * Math.PI) - Math.log(deviation) - 0.5 * (x / deviation) ** 2;

describe('normal log densities', () => {
  it('is a product where entries are independent', () => {
    const { all, without } = normalLogDensities(
      [0.3, -2],
      [
        [0.25, 0],
        [0, 4],
      ],
    );
    expect(all).toBeCloseTo(logNormal(0.3, 0.5) + logNormal(-2, 2), 12);
    expect(without[0]).toBeCloseTo(logNormal(-2, 2), 12);
    expect(without[1]).toBeCloseTo(logNormal(0.3, 0.5), 12);
  });

  // Sum and difference of two equally distributed entries are independent.
  it('turns correlated entries into sum and difference', () => {
    const { all, without } = normalLogDensities(
      [1, 0.4],
      [
        [2, 1.5],
        [1.5, 2],
      ],
    );
    const rotated = logNormal(1.4, Math.sqrt(7)) + logNormal(0.6, 1) + Math.log(2);
    expect(all).toBeCloseTo(rotated, 12);
    expect(without[1]).toBeCloseTo(logNormal(1, Math.sqrt(2)), 12);
  });
});
