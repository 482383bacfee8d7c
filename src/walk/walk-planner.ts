import { asPath } from './as-path.js';
import { estimatedMinutes } from './base-minutes.js';
import { ChosenAction } from './base-policy.js';
import { pathOptimum } from './path-optimum.js';
import { PreparedWalk, prepareWalk, WalkState } from './prepared-walk.js';
import { rollout } from './rollout.js';
import { takeAction } from './take-action.js';
import { WalkProblem } from './walk-problem.js';

/** What to do next, and the expected minutes from here until every function works. */
export interface NextAction extends ChosenAction {
  minutes: number;
}

export interface WalkPlanner {
  /** One fault on an unbranched stretch: the actions are the exact optimum. */
  isExact: boolean;
  start: WalkState;
  /** `reachedChance`: that the state comes about; the next step of what is seldom reached is found with less work. */
  next: (state: WalkState, reachedChance?: number) => NextAction;
  /** The expected minutes from a state on, exact where the plan is, else quickly estimated. */
  roughMinutes: (state: WalkState) => number;
}

/** Throws {@link WalkError} for a problem that cannot be. */
export function walkPlanner(problem: WalkProblem): WalkPlanner {
  const prepared = prepareWalk(problem);
  const path = asPath(prepared);
  if (path === null) {
    return {
      isExact: false,
      start: prepared.start,
      next: (state, reachedChance) => rollout(prepared, state, reachedChance),
      roughMinutes: (state) => estimatedMinutes(prepared, state),
    };
  }
  const optimum = pathOptimum(path);
  const next = (state: WalkState): NextAction => {
    const places = suspectPlaces(prepared, state);
    const [low, high] = [Math.min(...places), Math.max(...places)];
    const { action, minutes } = optimum.from(low, high, state.spot);
    if (action === null) throw new RangeError('a state without a suspect place');
    return { action, minutes, taken: takeAction(prepared, state, action) };
  };
  const roughMinutes = (state: WalkState) => next(state).minutes;
  return { isExact: true, start: prepared.start, next, roughMinutes };
}

function suspectPlaces({ sets }: PreparedWalk, state: WalkState): number[] {
  return state.sets.flatMap((set) => sets[set] ?? []);
}
