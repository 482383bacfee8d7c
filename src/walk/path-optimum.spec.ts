import { describe, expect, it } from '@jest/globals';
import { pathOptimum, PathPlace } from './path-optimum.js';

const here = { walkMinutes: [[0]], startSpot: 0 };
const place = (chance: number, openMinutes: number, tellsSide: boolean): PathPlace => {
  return { spot: 0, openMinutes, mendMinutes: 0, chance, tellsSide };
};

describe('the optimum on a path', () => {
  // CLRS, optimal binary search trees (read, recomputed): p .15 .10 .05 .10 .20,
  // q .05 .10 .05 .05 .05 .10, expected cost 2.75. A key is a place that tells the side, a gap one
  // that does not; each costs one comparison.
  it('is the optimal search tree of CLRS: 2.75', () => {
    const keys = [0.15, 0.1, 0.05, 0.1, 0.2];
    const gaps = [0.05, 0.1, 0.05, 0.05, 0.05, 0.1];
    const places = gaps.flatMap((q, i) => {
      const key = keys[i];
      return key === undefined ? [place(q, 1, false)] : [place(q, 1, false), place(key, 1, true)];
    });
    expect(pathOptimum({ ...here, places, checks: [] }).minutes).toBeCloseTo(2.75, 12);
  });

  it.each([1, 2, 3, 4, 5])('needs %d looks for 2^%d equal spans', (k) => {
    const size = 2 ** k;
    const places = Array.from({ length: size }, () => place(1 / size, 0, false));
    const checks = Array.from({ length: size - 1 }, (_, upTo) => ({ spot: 0, minutes: 1, upTo }));
    expect(pathOptimum({ ...here, places, checks }).minutes).toBeCloseTo(k, 12);
  });

  it('does not cross the site for a slightly better cut', () => {
    const walkMinutes = [
      [0, 1, 30],
      [1, 0, 30],
      [30, 30, 0],
    ];
    const places = [0.3, 0.2, 0.1, 0.4].map((p) => place(p, 0, false));
    const checks = [
      { spot: 1, minutes: 1, upTo: 0 },
      { spot: 2, minutes: 1, upTo: 1 },
      { spot: 1, minutes: 1, upTo: 2 },
    ];
    const { from } = pathOptimum({ walkMinutes, startSpot: 0, places, checks });
    expect(from(0, 3, 0).action).toEqual({ kind: 'check', check: 2 });
    expect(from(1, 2, 2).action).toEqual({ kind: 'check', check: 1 });
  });

  it('has nothing to do where no fault can be', () => {
    const { from } = pathOptimum({
      ...here,
      places: [place(0, 1, true), place(1, 1, true)],
      checks: [],
    });
    expect(from(0, 0, 0)).toEqual({ action: null, minutes: 0 });
    expect(from(0, 1, 0)).toEqual({ action: { kind: 'open', place: 1 }, minutes: 1 });
  });
});
