import { describe, expect, it } from '@jest/globals';
import { crewsOf } from './crew.js';
import type { DayProblem } from './day-problem.js';

const day = { fromMinute: 480, toMinute: 960, skills: [], startPlace: 1 };
const job = { minutes: 60, windows: [], skills: [], notBy: [], place: 0 };
const weighs = { latePerMinute: 3, waitPerMinute: 1, undoneCost: 500 };
const problem = (secondTripCost: Record<string, number>): DayProblem => ({
  jobs: [{ id: 'silent rooms', ...job, ...weighs, secondTripCost }],
  technicians: ['one', 'two', 'three'].map((id) => ({ id, ...day })),
  travelMinutes: [
    [0, 30],
    [30, 0],
  ],
  waitsFrom: 480,
  movedCost: 15,
});

describe('a crew', () => {
  it('is who is all the same to the plan: what is missing in a van tells them apart', () => {
    const together = (costs: Record<string, number>) =>
      crewsOf(problem(costs)).map(({ technicians }) => technicians);
    expect(together({})).toEqual([[0, 1, 2]]);
    expect(together({ one: 40, three: 40 })).toEqual([[0, 2], [1]]);
    // Nobody said anything of a van, or all is in it: the plan goes by the same.
    expect(together({ one: 0, two: 7 })).toEqual([[0, 2], [1]]);
  });
});
