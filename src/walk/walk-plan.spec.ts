import { describe, expect, it } from '@jest/globals';
import { type PlanNext, planWalk } from './walk-plan.js';
import { WalkProblem } from './walk-problem.js';

/** Three rooms in a row; one fault; the lamp of a room is out if the fault is up to there. */
const problem: WalkProblem = {
  walkMinutes: [0, 1, 2, 3].map((a) => [0, 1, 2, 3].map((b) => Math.abs(a - b))),
  startSpot: 0,
  places: [1, 2, 3].map((room) => ({
    label: `Open the terminals at Room ${room}`,
    spot: room,
    openMinutes: 8,
    mendMinutes: 10,
    check: room - 1,
  })),
  checks: [1, 2, 3].map((room) => ({
    label: `Look at the lamp in Room ${room}`,
    spot: room,
    minutes: 1,
    outcomes: ['lit', 'dark'],
    chances: (faults) => (faults.some((place) => place < room) ? [0, 1] : [1, 0]),
  })),
  worlds: [0.2, 0.3, 0.5].map((probability, fault) => ({ faults: [fault], probability })),
};

describe('a plan', () => {
  const plan = planWalk(problem, { steps: 4, leastChance: 0.01 });

  it('names the first destination and the expected minutes', () => {
    expect(plan).toMatchObject({ isExact: true, firstSpot: 1 });
    // Lamp 1 (2 min), if lit lamp 2 (2 min); then Room 3 (1 + 8 + 10), or 2 or 1 (8 + 10).
    const minutes = 2 + 0.8 * 2 + 0.5 * 19 + 0.3 * 18 + 0.2 * 18;
    expect(plan.expectedMinutes).toBeCloseTo(minutes, 12);
    // 20, 22 and 23 minutes.
    const squares = 0.2 * 20 ** 2 + 0.3 * 22 ** 2 + 0.5 * 23 ** 2;
    expect(plan.spreadMinutes).toBeCloseTo(Math.sqrt(squares - minutes ** 2), 12);
  });

  it('is cut where it would become long, or an outcome is rare', () => {
    const next = ({ first }: { first: PlanNext }) =>
      typeof first === 'string' ? [] : first.branches.map((branch) => branch.next);
    const short = planWalk(problem, { steps: 1, leastChance: 0.01 });
    expect(next(short)).toEqual(['plan-again', 'plan-again']);
    const likely = planWalk(problem, { steps: 4, leastChance: 0.4 });
    expect(next(likely)).toEqual([expect.objectContaining({ spot: 2 }), 'plan-again']);
  });
});
