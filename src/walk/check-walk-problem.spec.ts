import { describe, expect, it } from '@jest/globals';
import { checkWalkProblem } from './check-walk-problem.js';
import { WalkProblem } from './walk-problem.js';

const place = { label: 'Open it', spot: 1, openMinutes: 5, mendMinutes: 10 };
const check = {
  label: 'Look',
  spot: 0,
  minutes: 1,
  outcomes: ['lit', 'dark'],
  chances: () => [1, 0],
};
const good: WalkProblem = {
  walkMinutes: [
    [0, 2],
    [2, 0],
  ],
  startSpot: 0,
  places: [place, { ...place, check: 0 }],
  checks: [check],
  worlds: [
    { faults: [0], probability: 0.7 },
    { faults: [0, 1], probability: 0.3 },
  ],
};

describe('checking a walk problem', () => {
  it('passes a good one', () => {
    expect(() => checkWalkProblem(good)).not.toThrow();
  });

  it.each([
    ['walkMinutes/0', { walkMinutes: [[0], [2, 0]] }],
    [
      'walkMinutes/0/1',
      {
        walkMinutes: [
          [0, -1],
          [2, 0],
        ],
      },
    ],
    ['startSpot', { startSpot: 2 }],
    ['places/0/spot', { places: [{ ...place, spot: 9 }, place] }],
    ['places/1/mendMinutes', { places: [place, { ...place, mendMinutes: Number.NaN }] }],
    ['places/0/check', { places: [{ ...place, check: 4 }, place] }],
    ['checks/0/minutes', { checks: [{ ...check, minutes: Infinity }] }],
    ['worlds/0/probability', { worlds: [{ faults: [0], probability: -1 }] }],
    ['worlds/0/faults', { worlds: [{ faults: [], probability: 1 }] }],
    ['worlds/0/faults', { worlds: [{ faults: [1, 0], probability: 1 }] }],
    ['worlds/0/faults', { worlds: [{ faults: [7], probability: 1 }] }],
    ['worlds', { worlds: [{ faults: [0], probability: 0.5 }] }],
  ] as [string, Partial<WalkProblem>][])('names %s', (field, bad) => {
    expect(() => checkWalkProblem({ ...good, ...bad })).toThrow(
      expect.objectContaining({ name: 'WalkError', field }),
    );
  });
});
