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
      { kind: 'open', place: 1 },
      { kind: 'open', place: 0 },
    ]);
    expect(actions.map(({ minutes }) => minutes)).toEqual([1, 5, 10, 10, 10]);
    expect(actions[0]?.bits).toBeCloseTo(1, 12);
  });

  it('do not repeat a check', () => {
    const actions = possibleActions(prepared, { ...prepared.start, used: [0, 1] });
    expect(actions.every(({ action }) => action.kind === 'open')).toBe(true);
  });

  it('open at most the twelve best by chance per minute', () => {
    const many = Array.from({ length: 30 }, (_, fault) => ({
      faults: [fault],
      probability: (fault + 1) / 465,
    }));
    const wide = prepareWalk({
      ...problem,
      places: many.map(() => problem.places[0]!),
      checks: [],
      worlds: many,
    });
    const places = possibleActions(wide, wide.start).map(({ action }) => action);
    expect(places).toHaveLength(12);
    expect(places).not.toContainEqual({ kind: 'open', place: 17 });
    expect(suspectsOf(wide, wide.start)).toHaveLength(30);
  });
});
