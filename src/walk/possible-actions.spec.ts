import { describe, expect, it } from '@jest/globals';
import { possibleActions } from './possible-actions.js';
import { prepareWalk } from './prepared-walk.js';
import { suspectsOf } from './suspects.js';
import { WalkProblem } from './walk-problem.js';

const chances = [0.2, 0.3, 0.5];
const problem: WalkProblem = {
  walkMinutes: [
    [0, 4],
    [4, 0],
  ],
  startSpot: 0,
  places: chances.map(() => ({ label: 'Open', spot: 1, openMinutes: 6, mendMinutes: 0 })),
  checks: [
    { spot: 0, chances: ([fault]: readonly number[]) => (fault === 2 ? [1, 0] : [0, 1]) },
    { spot: 1, chances: ([fault]: readonly number[]) => (fault === 2 ? [1, 0] : [0, 1]) },
    { spot: 0, chances: () => [0.5, 0.5] },
  ].map((check) => ({ ...check, label: 'Look', minutes: 1, outcomes: ['lit', 'dark'] })),
  worlds: chances.map((probability, fault) => ({ faults: [fault], probability })),
};
const prepared = prepareWalk(problem);

describe('possible actions', () => {
  it('come most telling per minute first, and leave out a check that tells nothing', () => {
    const actions = possibleActions(prepared, prepared.start);
    expect(actions.map(({ action }) => action)).toEqual([
      { kind: 'check', check: 0 },
      { kind: 'check', check: 1 },
      { kind: 'open', place: 2 },
    ]);
    expect(actions.map(({ minutes }) => minutes)).toEqual([1, 5, 10]);
    expect(actions[0]?.bits).toBeCloseTo(1, 12);
  });

  it('open at one spot only what is not both rarer and slower than another there', () => {
    const [one] = problem.places;
    const minutes = [3, 9, 6];
    const places = minutes.map((openMinutes) => ({ ...one!, openMinutes }));
    const { start, ...rest } = prepareWalk({ ...problem, places, checks: [] });
    const opened = possibleActions({ ...rest, start }, start).map(({ action }) => action);
    expect(opened).toHaveLength(2);
    expect(opened).not.toContainEqual({ kind: 'open', place: 1 });
  });

  it('do not repeat a check', () => {
    const actions = possibleActions(prepared, { ...prepared.start, used: [0, 1] });
    expect(actions.every(({ action }) => action.kind === 'open')).toBe(true);
  });

  it('keep the ten most telling, of the twelve best by chance per minute', () => {
    const many = Array.from({ length: 30 }, (_, fault) => ({
      faults: [fault],
      probability: (fault + 1) / 465,
    }));
    const wide = prepareWalk({
      ...problem,
      walkMinutes: many.map((_, i) => many.map((_other, j) => (i === j ? 0 : 4))),
      places: many.map((_, spot) => ({ ...problem.places[0]!, spot })),
      checks: [],
      worlds: many,
    });
    const places = possibleActions(wide, wide.start).map(({ action }) => action);
    expect(places).toHaveLength(10);
    expect(places).not.toContainEqual({ kind: 'open', place: 17 });
    expect(suspectsOf(wide, wide.start).count).toBe(30);
  });
});
