import { power } from '../elementary/power.js';
import { WalkAction, WalkProblem } from './walk-problem.js';
import { walkPlanner, WalkPlanner } from './walk-planner.js';
import { WalkState } from './prepared-walk.js';

/** What follows an outcome: a step, the end of the work, or a plan to be made anew there. */
export type PlanNext = PlanStep | 'done' | 'plan-again';

export interface PlanStep {
  action: WalkAction;
  /** What to do, in words. */
  label: string;
  /** Where it is done. */
  spot: number;
  /** To walk there and do it. */
  minutes: number;
  /** Expected from before the step until every function works. */
  expectedMinutes: number;
  /** The deviation of that, by where the fault turns out to be; of what is planned anew as much as is expected of it. */
  spreadMinutes: number;
  branches: PlanBranch[];
}

export interface PlanBranch {
  /** The place opened was at fault and is mended. */
  isFound: boolean;
  /** Index of the check's outcome; null where none is seen. */
  outcome: number | null;
  /** Given that the step is reached. */
  probability: number;
  next: PlanNext;
}

export interface WalkPlan {
  /** The first steps are the exact optimum (one fault on an unbranched stretch). */
  isExact: boolean;
  expectedMinutes: number;
  /** The deviation of the minutes, by where the fault turns out to be. */
  spreadMinutes: number;
  /** The first destination; null when nothing is suspect. */
  firstSpot: number | null;
  first: PlanNext;
}

/**
 * The walk as a short tree: at most `steps` deep, and only along outcomes that are reached with at
 * least `leastChance`; beyond, the plan is made again with what is known then.
 * Throws {@link WalkError} for a problem that cannot be.
 */
export function planWalk(
  problem: WalkProblem,
  { steps, leastChance }: { steps: number; leastChance: number },
): WalkPlan {
  const planner = walkPlanner(problem);
  const first = planFrom(problem, planner, planner.start, { steps, leastChance, reachedChance: 1 });
  const isStep = typeof first === 'object';
  return {
    isExact: planner.isExact,
    expectedMinutes: isStep ? first.expectedMinutes : 0,
    spreadMinutes: isStep ? first.spreadMinutes : 0,
    firstSpot: isStep ? first.spot : null,
    first,
  };
}

interface Reach {
  steps: number;
  leastChance: number;
  reachedChance: number;
}

function planFrom(
  problem: WalkProblem,
  planner: WalkPlanner,
  state: WalkState,
  { steps, leastChance, reachedChance }: Reach,
): PlanNext {
  if (steps <= 0 || leastChance > 1) return 'plan-again';
  const { action, minutes, taken } = planner.next(state, reachedChance);
  const { spot = state.spot } =
    (action.kind === 'check' ? problem.checks[action.check] : problem.places[action.place]) ?? {};
  const minutesAfter: Minutes[] = [];
  const branches = taken.branches.map((branch): PlanBranch => {
    const { isFound, outcome, probability, state: after } = branch;
    const rest = {
      steps: steps - 1,
      leastChance: leastChance / probability,
      reachedChance: reachedChance * probability,
    };
    const next = after === null ? 'done' : planFrom(problem, planner, after, rest);
    const later = after === null ? CERTAINLY_NONE : minutesOf(planner, after, next);
    const expected = branch.mendMinutes + later.expected;
    minutesAfter.push({ probability, expected, spread: later.spread });
    return { isFound, outcome, probability, next };
  });
  const label = labelOf(problem, action);
  const spreadMinutes = spreadOf(minutesAfter);
  const step = { action, label, spot, minutes: taken.minutes, expectedMinutes: minutes };
  return { ...step, spreadMinutes, branches };
}

/** What follows an ending of a step. */
interface Minutes {
  probability: number;
  expected: number;
  spread: number;
}

const CERTAINLY_NONE = { expected: 0, spread: 0 };

function minutesOf(planner: WalkPlanner, state: WalkState, next: PlanNext) {
  if (typeof next === 'object') {
    return { expected: next.expectedMinutes, spread: next.spreadMinutes };
  }
  const expected = planner.roughMinutes(state);
  return { expected, spread: expected };
}

/** The deviation of a mixture, from what it has of each of its parts. */
function spreadOf(parts: readonly Minutes[]): number {
  const mean = parts.reduce((sum, { probability, expected }) => sum + probability * expected, 0);
  const variance = parts.reduce((sum, { probability, expected, spread }) => {
    return sum + probability * (power(spread, 2) + power(expected - mean, 2));
  }, 0);
  return Math.sqrt(variance);
}

function labelOf({ checks, places }: WalkProblem, action: WalkAction): string {
  if (action.kind === 'check') return checks[action.check]?.label ?? '';
  const { label = '', remakeLabel = label } = places[action.place] ?? {};
  return action.kind === 'remake' ? remakeLabel : label;
}
