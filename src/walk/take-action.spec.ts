import { describe, expect, it } from '@jest/globals';
import { prepareWalk } from './prepared-walk.js';
import { takeAction } from './take-action.js';
import { WalkProblem } from './walk-problem.js';

/** Two places; a noisy lamp at spot 1 that both put out; the second place shows it when open. */
const problem: WalkProblem = {
  walkMinutes: [
    [0, 2],
    [3, 0],
  ],
  startSpot: 0,
  places: [
    { label: 'Open the first', spot: 0, openMinutes: 5, mendMinutes: 10 },
    { label: 'Open the second', spot: 1, openMinutes: 4, mendMinutes: 7, check: 0 },
  ],
  checks: [
    {
      label: 'Look at the lamp',
      spot: 1,
      minutes: 1,
      outcomes: ['lit', 'dark'],
      chances: (faults) => (faults.includes(0) ? [0.1, 0.9] : [0.6, 0.4]),
    },
  ],
  worlds: [
    { faults: [0], probability: 0.5 },
    { faults: [1], probability: 0.3 },
    { faults: [0, 1], probability: 0.2 },
  ],
};
const prepared = prepareWalk(problem);
const rounded = (values: readonly number[] | undefined) => values?.map((x) => Number(x.toFixed(9)));

describe('taking an action', () => {
  it('walks, checks and applies Bayes’ rule', () => {
    const { minutes, branches } = takeAction(prepared, prepared.start, { kind: 'check', check: 0 });
    expect(minutes).toBe(3);
    expect(rounded(branches.map((b) => b.probability))).toEqual([0.25, 0.75]);
    expect(rounded(branches[0]?.state?.chances)).toEqual([0.2, 0.72, 0.08]);
    expect(branches[0]?.state).toMatchObject({ spot: 1, used: [0] });
  });

  it('opens a place: done, mended with more to find, or sound', () => {
    const { minutes, branches } = takeAction(prepared, prepared.start, { kind: 'open', place: 0 });
    expect(minutes).toBe(5);
    expect(branches.map((b) => [b.isFound, b.mendMinutes, b.state === null])).toEqual([
      [true, 10, true],
      [true, 10, false],
      [false, 0, false],
    ]);
    expect(rounded(branches.map((b) => b.probability))).toEqual([0.5, 0.2, 0.3]);
    expect(branches[1]?.state?.chances).toEqual([1]);
  });

  it('sees a place’s own check once it is open, and forgets checks after a mending', () => {
    const { branches } = takeAction(prepared, prepared.start, { kind: 'open', place: 1 });
    expect(branches.map((b) => [b.isFound, b.outcome])).toEqual([
      [true, null],
      [true, null],
      [false, 0],
      [false, 1],
    ]);
    expect(rounded(branches.map((b) => b.probability))).toEqual([0.3, 0.2, 0.05, 0.45]);
    expect(branches[1]?.state?.used).toEqual([]);
    expect(branches[2]?.state?.used).toEqual([0]);
  });

  it('misses faults, mends what is sound, and makes anew what looked sound', () => {
    const [first, second] = problem.places;
    const missing = prepareWalk({
      ...problem,
      places: [{ ...first!, missedChance: () => 0.2, falseChance: 0.1 }, second!],
    });
    const opened = takeAction(missing, missing.start, { kind: 'open', place: 0 });
    expect(rounded(opened.branches.map((b) => b.probability))).toEqual([0.4, 0.19, 0.41]);
    const [, more, sound] = opened.branches;
    // At fault there and missed (.1 and .04), or at fault elsewhere and seen as it is (.27).
    expect(rounded(sound?.state?.chances)).toEqual(rounded([0.1 / 0.41, 0.27 / 0.41, 0.04 / 0.41]));
    expect([more?.state?.opened, sound?.state?.opened]).toEqual([[], [0]]);
    const again = takeAction(missing, sound!.state!, { kind: 'remake', place: 0 });
    expect(again.minutes).toBe(15);
    expect(rounded(again.branches.map((b) => b.probability))).toEqual(
      rounded([0.1 / 0.41, 0.31 / 0.41]),
    );
    expect(again.branches[1]?.state?.chances).toEqual([1]);
  });

  it('learns nothing from a check that was made before', () => {
    const used = { ...prepared.start, used: [0] };
    const { branches } = takeAction(prepared, used, { kind: 'check', check: 0 });
    expect(branches).toHaveLength(1);
    expect(branches[0]?.state?.chances).toEqual(prepared.start.chances);
  });
});
