import { describe, expect, it } from '@jest/globals';
import { meanDensity, standardDensity } from './mean-density.js';

/** Simpson's rule with so many panels that it is exact here. */
function simpson(low: number, high: number): number {
  const panels = 20_000;
  let sum = 0;
  for (let i = 0; i <= panels; i++)
    sum +=
      (i === 0 || i === panels ? 1 : i % 2 === 1 ? 4 : 2) *
      standardDensity(low + (i * (high - low)) / panels);
  return sum / (3 * panels);
}

describe('meanDensity', () => {
  it.each([
    [-0.01, 0.02],
    [-1, 1],
    [-9, 0.5],
    [0, 3],
    [2.9, 3],
    [6, 6.09],
    [6, 6.2],
    [8, 9.5],
    [-9.5, -9.41],
    [-12, 9],
  ])('over [%d, %d] keeps its digits', (low, high) => {
    expect(Math.abs(meanDensity(low, high) / simpson(low, high) - 1)).toBeLessThan(1e-12);
  });

  it('is the density at a point, and 0 far out', () => {
    expect(meanDensity(1.3, 1.3)).toBeCloseTo(standardDensity(1.3), 15);
    expect(meanDensity(60, 90)).toBe(0);
    expect(meanDensity(-1e9, -1e6)).toBe(0);
  });
});
