import { baseAction, Preference } from './base-policy.js';
import { openInOrder } from './open-in-order.js';
import { PreparedWalk, WalkState } from './prepared-walk.js';

/**
 * Expected minutes of the simple policy from a state. Branches that are reached with less than
 * `leastChance` are taken as opened in order, which is no less than what they would cost.
 */
export function baseMinutes(
  prepared: PreparedWalk,
  state: WalkState,
  preference: Preference,
  leastChance: number,
): number {
  if (leastChance >= 1) return openInOrder(prepared, state).minutes;
  const { taken } = baseAction(prepared, state, preference);
  return taken.branches.reduce((sum, branch) => {
    const { probability, mendMinutes, state: next } = branch;
    const after =
      next === null ? 0 : baseMinutes(prepared, next, preference, leastChance / probability);
    return sum + probability * (mendMinutes + after);
  }, taken.minutes);
}
