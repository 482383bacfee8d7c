import { describe, expect, it } from '@jest/globals';
import { seededDraws } from './seeded-draws.js';

const COUNT = 5000;

/** Mean and variance within five standard errors of the mean, and a tenth of the variance. */
function expectMoments(draw: () => number, mean: number, variance: number): void {
  const values = Array.from({ length: COUNT }, draw);
  const seen = values.reduce((sum, value) => sum + value, 0) / COUNT;
  const spread = values.reduce((sum, value) => sum + (value - seen) ** 2, 0) / (COUNT - 1);
  expect(Math.abs(seen - mean)).toBeLessThan(5 * Math.sqrt(variance / COUNT));
  expect(Math.abs(spread / variance - 1)).toBeLessThan(0.1);
}

describe('draws', () => {
  const draws = seededDraws(3);

  it.each([0.3, 1, 4, 60])('gamma of shape %p has its mean and variance', (shape) => {
    expectMoments(() => draws.gamma(shape, 2), shape / 2, shape / 4);
  });

  it.each([0.2, 3, 700])('Poisson of mean %p has it as mean and as variance', (mean) => {
    expectMoments(() => draws.poisson(mean), mean, mean);
  });

  it('beta and normal have theirs', () => {
    expectMoments(() => draws.beta(3, 1), 3 / 4, 3 / (16 * 5));
    expectMoments(() => draws.normal(), 0, 1);
  });

  it('are the same for the same seed', () => {
    const [one, other] = [seededDraws(9), seededDraws(9)];
    expect([one.gamma(2, 1), one.poisson(5)]).toEqual([other.gamma(2, 1), other.poisson(5)]);
    expect(draws.poisson(0)).toBe(0);
  });
});
