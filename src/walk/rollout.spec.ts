import { describe, expect, it } from '@jest/globals';
import { prepareWalk } from './prepared-walk.js';
import { rollout } from './rollout.js';
import { WalkProblem } from './walk-problem.js';

/** Two suspects; the better one is a check at the other end of the site away from being certain. */
const problem = (awayMinutes: number): WalkProblem => ({
  walkMinutes: [
    [0, awayMinutes],
    [awayMinutes, 0],
  ],
  startSpot: 0,
  places: [
    { label: 'Open the first', spot: 0, openMinutes: 20, mendMinutes: 5 },
    { label: 'Open the second', spot: 0, openMinutes: 20, mendMinutes: 5 },
  ],
  checks: [
    {
      label: 'Look',
      spot: 1,
      minutes: 1,
      outcomes: ['lit', 'dark'],
      chances: ([fault]) => (fault === 0 ? [0.95, 0.05] : [0.05, 0.95]),
    },
  ],
  worlds: [0.6, 0.4].map((probability, fault) => ({ faults: [fault], probability })),
});

describe('looking ahead', () => {
  // Opening first: 20 + .4 · 20 + 5 = 33 minutes. With the check: 20 + .05 · 20 + 5 = 26 and the way.
  it('stops testing by value of information', () => {
    const near = prepareWalk(problem(1));
    const { action, minutes } = rollout(near, near.start);
    expect(action).toEqual({ kind: 'check', check: 0 });
    expect(minutes).toBeCloseTo(29, 9);
    const far = prepareWalk(problem(4));
    expect(rollout(far, far.start)).toMatchObject({
      action: { kind: 'open', place: 0 },
      minutes: expect.closeTo(33, 9),
    });
  });

  it('answers the same for the same', () => {
    const [a, b] = [prepareWalk(problem(1)), prepareWalk(problem(1))];
    expect(rollout(a, a.start).action).toEqual(rollout(b, b.start).action);
  });
});
