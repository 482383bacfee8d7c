export { partsToCarry, type CarriedPart, type Part, type PartsToCarry } from './parts-to-carry.js';
export {
  pathOptimum,
  type PathCheck,
  type PathOptimum,
  type PathPlace,
  type PathProblem,
} from './path-optimum.js';
export { prepareWalk, type PreparedWalk, type WalkState } from './prepared-walk.js';
export { rollout, type RolledOut } from './rollout.js';
export { takeAction, type Branch, type TakenAction } from './take-action.js';
export { WalkError } from './walk-error.js';
export { walkMinutes, type Pace, type WalkSpot } from './walk-minutes.js';
export {
  planWalk,
  type PlanBranch,
  type PlanNext,
  type PlanStep,
  type WalkPlan,
} from './walk-plan.js';
export { walkPlanner, type NextAction, type WalkPlanner } from './walk-planner.js';
export type { WalkAction, WalkCheck, WalkPlace, WalkProblem, World } from './walk-problem.js';
