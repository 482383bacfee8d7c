import { describe, expect, it } from '@jest/globals';
import { asPath } from './as-path.js';
import { prepareWalk } from './prepared-walk.js';
import { WalkCheck, WalkProblem } from './walk-problem.js';

const lamp = (upTo: number): WalkCheck => ({
  label: 'Look',
  spot: 0,
  minutes: 1,
  outcomes: ['lit', 'dark'],
  chances: (faults) => (faults.some((place) => place <= upTo) ? [0, 1] : [1, 0]),
});
const place = (check: number) => ({
  label: 'Open',
  spot: 0,
  openMinutes: 5,
  mendMinutes: 9,
  check,
});
const path: WalkProblem = {
  walkMinutes: [[0]],
  startSpot: 0,
  places: [place(0), place(1), place(2)],
  checks: [lamp(0), lamp(1), lamp(2)],
  worlds: [0, 1, 2].map((fault) => ({ faults: [fault], probability: 1 / 3 })),
};
const of = (changed: Partial<WalkProblem>) => asPath(prepareWalk({ ...path, ...changed }));

describe('a problem as a path', () => {
  it('recognises one fault, plain cuts and openings that tell the side', () => {
    const found = of({});
    expect(found?.checks.map(({ upTo }) => upTo)).toEqual([0, 1, 2]);
    expect(found?.places.every(({ tellsSide }) => tellsSide)).toBe(true);
  });

  it('does not mind a cleared place', () => {
    const worlds = [0, 2].map((fault) => ({ faults: [fault], probability: 0.5 }));
    expect(of({ worlds })?.places.map(({ chance }) => chance)).toEqual([0.5, 0, 0.5]);
  });

  it('is none with two faults, a check that errs or is lit between, or an opening that tells nothing', () => {
    expect(of({ worlds: [{ faults: [0, 1], probability: 1 }] })).toBeNull();
    const erring = { ...lamp(1), chances: () => [0.01, 0.99] };
    expect(of({ checks: [lamp(0), erring, lamp(2)] })).toBeNull();
    const between = {
      ...lamp(1),
      chances: (f: readonly number[]) => (f[0] === 1 ? [1, 0] : [0, 1]),
    };
    expect(of({ checks: [lamp(0), between, lamp(2)] })).toBeNull();
    expect(of({ places: [place(0), { ...place(1), check: undefined }, place(2)] })).toBeNull();
  });
});
