import { describe, expect, it } from '@jest/globals';
import { openInOrder } from './open-in-order.js';
import { prepareWalk } from './prepared-walk.js';
import { WalkProblem } from './walk-problem.js';

const place = (openMinutes: number, mendMinutes = 0) => {
  return { label: 'Open', spot: 0, openMinutes, mendMinutes };
};
const here = { walkMinutes: [[0]], startSpot: 0, checks: [] };

describe('opening in order', () => {
  // Chances per minute .05, .15, .0667: order second, third, first.
  it('goes by chance per minute and charges all that was opened before', () => {
    const problem: WalkProblem = {
      ...here,
      places: [place(4), place(2), place(9)],
      worlds: [
        { faults: [0], probability: 0.2 },
        { faults: [1], probability: 0.3 },
        { faults: [2], probability: 0.5 },
      ],
    };
    const prepared = prepareWalk({ ...problem, places: [place(4), place(2), place(7.5)] });
    const { minutes, first } = openInOrder(prepared, prepared.start);
    expect(first).toEqual({ kind: 'open', place: 1 });
    expect(minutes).toBeCloseTo(0.3 * 2 + 0.5 * 9.5 + 0.2 * 13.5, 12);
  });

  it('ends a world with the last of its faults, and mends each', () => {
    const prepared = prepareWalk({
      ...here,
      places: [place(1, 10), place(2, 20)],
      worlds: [
        { faults: [0], probability: 0.5 },
        { faults: [0, 1], probability: 0.5 },
      ],
    });
    expect(openInOrder(prepared, prepared.start).minutes).toBeCloseTo(0.5 * 11 + 0.5 * 33, 12);
  });

  it('counts walking', () => {
    const walkMinutes = [
      [0, 1, 50],
      [1, 0, 50],
      [50, 50, 0],
    ];
    const prepared = prepareWalk({
      ...here,
      walkMinutes,
      places: [
        { ...place(1), spot: 2 },
        { ...place(1), spot: 1 },
      ],
      worlds: [
        { faults: [0], probability: 0.8 },
        { faults: [1], probability: 0.2 },
      ],
    });
    const { first, minutes } = openInOrder(prepared, prepared.start);
    expect(first).toEqual({ kind: 'open', place: 1 });
    expect(minutes).toBeCloseTo(0.2 * 2 + 0.8 * 53, 12);
  });
});
