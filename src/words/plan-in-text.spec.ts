import { describe, expect, it } from '@jest/globals';

import { type PlanNext, type PlanStep, planWalk, type WalkProblem } from '../walk/index.js';
import { planInText, wordsIn } from './index.js';

const EN = wordsIn('en');

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

  it('prints as a short tree', () => {
    expect(planInText(problem, plan.first, EN)).toEqual([
      'Look at the lamp in Room 1 (2 min).',
      '  If lit (80 %): Look at the lamp in Room 2 (2 min).',
      '    If lit (63 %): Open the terminals at Room 3 (9 min).',
      '      If at fault, mend it (100 %): Everything works.',
      '    If dark (37 %): Open the terminals at Room 2 (8 min).',
      '      If at fault, mend it (100 %): Everything works.',
      '  If dark (20 %): Open the terminals at Room 1 (8 min).',
      '    If at fault, mend it (100 %): Everything works.',
    ]);
  });

  it('is cut where it would become long, or an outcome is rare', () => {
    const short = planWalk(problem, { steps: 1, leastChance: 0.01 });
    expect(planInText(problem, short.first, EN)[1]).toBe('  If lit (80 %): Ask again here.');
    const likely = planWalk(problem, { steps: 4, leastChance: 0.4 });
    expect(planInText(problem, likely.first, EN)).toEqual([
      'Look at the lamp in Room 1 (2 min).',
      '  If lit (80 %): Look at the lamp in Room 2 (2 min).',
      '    If lit (63 %): Open the terminals at Room 3 (9 min).',
      '      If at fault, mend it (100 %): Everything works.',
      '    If dark (37 %): Ask again here.',
      '  If dark (20 %): Ask again here.',
    ]);
  });

  it('says on one line what all ends in asking again', () => {
    const step = (next: PlanNext): PlanStep => ({
      action: { kind: 'check', check: 0 },
      label: 'Look at the lamp in Room 1',
      spot: 1,
      minutes: 2,
      expectedMinutes: 9,
      spreadMinutes: 0,
      branches: [
        { isFound: false, outcome: 0, probability: 0.9, next },
        { isFound: false, outcome: 1, probability: 0.06, next: 'plan-again' },
        { isFound: false, outcome: 1, probability: 0.04, next: 'plan-again' },
      ],
    });
    expect(planInText(problem, step('done'), EN)).toEqual([
      'Look at the lamp in Room 1 (2 min).',
      '  If lit (90 %): Everything works.',
      '  Otherwise (10 %): Ask again here.',
    ]);
    // Where nothing goes on, each is told: "otherwise" than what?
    expect(planInText(problem, step('plan-again'), EN)).toHaveLength(4);
  });

  it('goes on after a mending when something still fails', () => {
    const two = { ...problem, worlds: [{ faults: [0, 2], probability: 1 }] };
    const { isExact, first } = planWalk(two, { steps: 4, leastChance: 0.01 });
    expect(isExact).toBe(false);
    expect(planInText(two, first, EN)).toEqual([
      'Open the terminals at Room 1 (9 min).',
      '  If at fault, mend it; if something still fails (100 %): Open the terminals at Room 3 (10 min).',
      '    If at fault, mend it (100 %): Everything works.',
    ]);
  });
});
