import { describe, expect, it } from '@jest/globals';
import { baseMinutes } from './base-minutes.js';
import { baseAction } from './base-policy.js';
import { openInOrder } from './open-in-order.js';
import { prepareWalk } from './prepared-walk.js';
import { WalkProblem } from './walk-problem.js';

/** Four equal places at one spot, and a check that halves them. */
const halves = (checkMinutes: number): WalkProblem => ({
  walkMinutes: [[0]],
  startSpot: 0,
  places: [0, 1, 2, 3].map(() => ({ label: 'Open', spot: 0, openMinutes: 6, mendMinutes: 0 })),
  checks: [
    {
      label: 'Look',
      spot: 0,
      minutes: checkMinutes,
      outcomes: ['lit', 'dark'],
      chances: ([fault = 0]) => (fault < 2 ? [1, 0] : [0, 1]),
    },
  ],
  worlds: [0, 1, 2, 3].map((fault) => ({ faults: [fault], probability: 0.25 })),
});

describe('the simple policy', () => {
  // In order: 6 · (1 + 2 + 3 + 4)/4 = 15 minutes; after halving 6 · 1.5 = 9.
  it.each(['information', 'minutes'] as const)(
    'checks when that saves more than it costs (%s)',
    (by) => {
      const worth = prepareWalk(halves(5));
      expect(baseAction(worth, worth.start, by).action).toEqual({ kind: 'check', check: 0 });
      expect(
        baseMinutes(worth, worth.start, { preference: by, leastChance: 0 }, Infinity),
      ).toBeCloseTo(14, 12);
      const dear = prepareWalk(halves(7));
      expect(baseAction(dear, dear.start, by).action.kind).toBe('open');
      expect(
        baseMinutes(dear, dear.start, { preference: by, leastChance: 0 }, Infinity),
      ).toBeCloseTo(15, 12);
    },
  );

  // Halving first: 2 minutes for each of 2 bits, and 6 to open; no less than in order if it is dear.
  it('estimates rare branches by the best rate of learning, or in order', () => {
    const worth = prepareWalk(halves(2));
    expect(
      baseMinutes(worth, worth.start, { preference: 'minutes', leastChance: 1 }, Infinity),
    ).toBeCloseTo(2 * 2 + 6, 12);
    const dear = prepareWalk(halves(50));
    const inOrder = openInOrder(dear, dear.start).minutes;
    expect(baseMinutes(dear, dear.start, { preference: 'minutes', leastChance: 1 }, Infinity)).toBe(
      inOrder,
    );
  });
});
