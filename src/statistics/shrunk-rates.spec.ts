import { describe, expect, it } from '@jest/globals';
import { shrunkRates } from './shrunk-rates.js';

const group = (exposure: number, events: number) => ({ exposure, events, parentRate: 0.1 });

describe('shrunk rates', () => {
  it('is the parent’s rate without a record', () => {
    expect(shrunkRates([group(0, 0)])[0]).toBeCloseTo(0.1, 12);
    expect(shrunkRates([])).toEqual([]);
  });

  it('lies between the parent’s rate and the group’s own', () => {
    const [quiet, busy] = shrunkRates([group(10, 0), group(10, 4)]);
    expect(quiet).toBeGreaterThan(0);
    expect(quiet).toBeLessThan(0.1);
    expect(busy).toBeGreaterThan(0.1);
    expect(busy).toBeLessThan(0.4);
  });

  it('follows a long record', () => {
    expect(shrunkRates([group(1e5, 5e4)])[0]).toBeCloseTo(0.5, 3);
  });

  it('shrinks more where groups are alike than where they differ', () => {
    const alike = shrunkRates([group(40, 8), ...Array.from({ length: 20 }, () => group(40, 4))]);
    const unlike = shrunkRates([
      group(40, 8),
      ...Array.from({ length: 20 }, (_, i) => group(40, i % 4 === 0 ? 16 : 0)),
    ]);
    expect(alike[0]).toBeLessThan((unlike[0] ?? 0) - 0.03);
  });
});
