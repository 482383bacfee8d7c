import { describe, expect, it } from '@jest/globals';
import { loopExcess, logFlat } from './loop-excess.js';

const RANGE = 8;
const normal = (x: number, mean: number, s: number) =>
  Math.exp(-(((x - mean) / s) ** 2) / 2) / (s * Math.sqrt(2 * Math.PI));

describe('loopExcess', () => {
  it('and the flat share make the density of one reading', () => {
    const excess = loopExcess([{ ohms: 2, uncertaintyOhms: 0.1 }], RANGE);
    for (const r of [1.8, 2, 2.3, 5]) {
      const density = Math.exp(logFlat(1, RANGE)) * (1 + excess(r, r));
      expect(density).toBeCloseTo(0.99 * normal(2, r, 0.1) + 0.01 / RANGE, 12);
    }
  });

  it('of several readings holds the product at one place, for any number of them wrong', () => {
    const reads = [
      { ohms: 2, uncertaintyOhms: 0.1 },
      { ohms: 2.2, uncertaintyOhms: 0.3 },
      { ohms: 5, uncertaintyOhms: 0.1 },
    ];
    const excess = loopExcess(reads, RANGE);
    for (const r of [1.9, 2.1, 4.9]) {
      const product = reads.reduce(
        (p, { ohms, uncertaintyOhms: s }) => p * (0.99 * normal(ohms, r, s) + 0.01 / RANGE),
        1,
      );
      expect((Math.exp(logFlat(3, RANGE)) * (1 + excess(r, r))) / product).toBeCloseTo(1, 10);
    }
  });

  it('of a cable is the mean over it', () => {
    const excess = loopExcess([{ ohms: 2, uncertaintyOhms: 0.1 }], RANGE);
    const steps = Array.from({ length: 10_000 }, (_, i) => 1 + (i + 0.5) * 1.5e-4);
    const mean = steps.reduce((sum, r) => sum + excess(r, r), 0) / steps.length;
    expect(excess(1, 2.5) / mean).toBeCloseTo(1, 6);
  });
});
