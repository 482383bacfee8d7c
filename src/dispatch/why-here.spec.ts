import { describe, expect, it } from '@jest/globals';
import type { DayJob, DayProblem } from './day-problem.js';
import { whyHere } from './why-here.js';

const job = (id: string, place: number, windows: DayJob['windows'] = []): DayJob => ({
  id,
  place,
  minutes: 10,
  windows,
  skills: [],
  waitPerMinute: 0,
  latePerMinute: 0,
  undoneCost: 1000,
  notBy: [],
});

/** The way to the far place is a guess, and shorter by the near one than straight. */
const PROBLEM: DayProblem = {
  jobs: [job('near', 1), job('far', 2, [{ from: 480, to: 600 }])],
  technicians: ['one', 'two'].map((id) => ({
    id,
    fromMinute: 480,
    toMinute: 1020,
    skills: [],
    startPlace: 0,
  })),
  travelMinutes: [
    [0, 5, 300],
    [5, 0, 5],
    [300, 5, 0],
  ],
  waitsFrom: 480,
  movedCost: 0,
};

describe('why a job is where it is', () => {
  it('names nobody instead where the rest of the day could not be done without it', () => {
    const routes = [{ technician: 0, jobs: [0, 1] }];
    const reasons = whyHere(PROBLEM, { routes, undone: [], cost: 10 });
    expect(reasons.map(({ instead }) => instead)).toEqual([undefined, undefined]);
  });

  it('names nobody whose own day cannot be done as it is', () => {
    const routes = [
      { technician: 0, jobs: [0] },
      { technician: 1, jobs: [1] },
    ];
    const [near] = whyHere(PROBLEM, { routes, undone: [], cost: 10 });
    expect(near?.instead).toBeUndefined();
  });

  it('says what the next best costs more', () => {
    const routes = [{ technician: 0, jobs: [0] }];
    const [near] = whyHere(PROBLEM, { routes, undone: [1], cost: 5 });
    expect(near?.instead).toEqual({ technician: 1, extraCost: 0 });
  });
});
