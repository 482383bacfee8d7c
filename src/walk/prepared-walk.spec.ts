import { describe, expect, it } from '@jest/globals';
import { prepareWalk } from './prepared-walk.js';
import { WalkProblem } from './walk-problem.js';

const place = { label: 'Open it', spot: 0, openMinutes: 5, mendMinutes: 10 };
const problem: WalkProblem = {
  walkMinutes: [[0]],
  startSpot: 0,
  places: [place, place, place],
  checks: [
    {
      label: 'Look',
      spot: 0,
      minutes: 1,
      outcomes: ['lit', 'dark'],
      chances: (faults) => (faults.includes(1) ? [0.5, 0.5] : [1, 0]),
    },
  ],
  worlds: [
    { faults: [0, 1], probability: 0.5 },
    { faults: [1], probability: 0.25 },
    { faults: [1], probability: 0.25 },
    { faults: [2], probability: 0 },
  ],
};

describe('preparing a walk', () => {
  it('numbers every set that mending can leave, and none twice', () => {
    const { sets, without } = prepareWalk(problem);
    expect(sets).toEqual([[], [0, 1], [1], [2], [0]]);
    // By set and place; a place that is not in a set leaves it as it is.
    expect([...without.slice(3, 6)]).toEqual([2, 4, 1]);
    expect([...without.slice(6, 9)]).toEqual([2, 0, 2]);
  });

  it('adds up equal worlds, drops impossible ones, and tabulates the checks', () => {
    const { start, chances, outcomeBits } = prepareWalk(problem);
    expect(start).toEqual({ spot: 0, sets: [1, 2], chances: [0.5, 0.5], used: [], opened: [] });
    expect([...(chances[0]?.values.slice(4, 6) ?? [])]).toEqual([0.5, 0.5]);
    expect([outcomeBits[0]?.[2], outcomeBits[0]?.[4]]).toEqual([1, 0]);
  });

  it('refuses a check whose chances are none', () => {
    const [check] = problem.checks;
    const bad = (chances: number[]) => ({
      ...problem,
      checks: [{ ...check!, chances: () => chances }],
    });
    for (const chances of [[0.5, 0.6], [1], [-1, 2], [Number.NaN, 1]]) {
      expect(() => prepareWalk(bad(chances))).toThrow('checks/0/chances');
    }
  });
});
