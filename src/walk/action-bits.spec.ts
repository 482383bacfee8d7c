import { describe, expect, it } from '@jest/globals';
import { actionBits } from './action-bits.js';
import { PreparedWalk, prepareWalk, WalkState } from './prepared-walk.js';
import { takeAction } from './take-action.js';
import { WalkAction, WalkProblem } from './walk-problem.js';

const place = (check?: number) => ({
  label: 'Open',
  spot: 0,
  openMinutes: 5,
  mendMinutes: 9,
  check,
});
const problem: WalkProblem = {
  walkMinutes: [[0]],
  startSpot: 0,
  places: [place(), place(0), place()],
  checks: [
    {
      label: 'Look',
      spot: 0,
      minutes: 1,
      outcomes: ['lit', 'weak', 'dark'],
      chances: (faults) => (faults.includes(0) ? [0.1, 0.2, 0.7] : [0.8, 0.1, 0.1]),
    },
  ],
  worlds: [
    { faults: [0], probability: 0.4 },
    { faults: [1], probability: 0.3 },
    { faults: [2], probability: 0.1 },
    { faults: [0, 1], probability: 0.2 },
  ],
};
const prepared = prepareWalk(problem);

/** By its definition: entropy before less expected entropy after. */
function byStates(walk: PreparedWalk, state: WalkState, action: WalkAction): number {
  const entropy = (chances: readonly number[]) =>
    chances.reduce((bits, p) => bits - p * Math.log2(p), 0);
  return takeAction(walk, state, action).branches.reduce(
    (bits, { probability, state: after }) =>
      bits - probability * (after ? entropy(after.chances) : 0),
    entropy(state.chances),
  );
}

describe('information of an action', () => {
  it.each([
    { kind: 'check', check: 0 },
    { kind: 'open', place: 0 },
    { kind: 'open', place: 1 },
    { kind: 'open', place: 2 },
  ] as WalkAction[])('is entropy before less entropy after (%p)', (action) => {
    const bits = actionBits(prepared, prepared.start, action);
    expect(bits).toBeGreaterThan(0.05);
    expect(bits).toBeCloseTo(byStates(prepared, prepared.start, action), 12);
  });

  it('takes what is missed for noise', () => {
    const places = problem.places.map((one) => ({ ...one, missedChance: () => 0.3 }));
    const missing = prepareWalk({ ...problem, places });
    for (const at of [0, 1, 2]) {
      const open = { kind: 'open', place: at } as const;
      const bits = actionBits(missing, missing.start, open);
      expect(bits).toBeCloseTo(byStates(missing, missing.start, open), 12);
      const before = actionBits(prepared, prepared.start, open);
      expect(bits).toBeLessThan(before);
    }
  });

  it('does not count a check that was made before', () => {
    const used = { ...prepared.start, used: [0] };
    const open = { kind: 'open', place: 1 } as const;
    expect(actionBits(prepared, used, open)).toBeCloseTo(byStates(prepared, used, open), 12);
  });

  it('is none where only one world is left', () => {
    const certain = { ...prepared.start, sets: [1], chances: [1] };
    expect(actionBits(prepared, certain, { kind: 'check', check: 0 })).toBeCloseTo(0, 12);
  });
});
