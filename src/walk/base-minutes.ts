import { baseAction, Preference } from './base-policy.js';
import { openInOrder } from './open-in-order.js';
import { bestRate } from './possible-actions.js';
import { PreparedWalk, WalkState } from './prepared-walk.js';

/**
 * Expected minutes of the simple policy from a state. Branches that are reached with less than
 * `leastChance` are estimated.
 */
export function baseMinutes(
  prepared: PreparedWalk,
  state: WalkState,
  preference: Preference,
  leastChance: number,
): number {
  if (leastChance >= 1) return estimatedMinutes(prepared, state);
  const { taken } = baseAction(prepared, state, preference);
  return taken.branches.reduce((sum, branch) => {
    const { probability, mendMinutes, state: next } = branch;
    const after =
      next === null ? 0 : baseMinutes(prepared, next, preference, leastChance / probability);
    return sum + probability * (mendMinutes + after);
  }, taken.minutes);
}

/**
 * Opening in order, or, if that is less: what is not known yet at the best rate of learning, and
 * then opening and mending what is at fault.
 */
export function estimatedMinutes(prepared: PreparedWalk, state: WalkState): number {
  const inOrder = openInOrder(prepared, state).minutes;
  const rate = bestRate(prepared, state);
  if (rate <= 0) return inOrder;
  const { places } = prepared.problem;
  let bits = 0;
  let mending = 0;
  state.sets.forEach((set, i) => {
    const chance = state.chances[i] ?? 0;
    bits -= chance * Math.log2(chance);
    for (const place of prepared.sets[set] ?? []) {
      mending += chance * ((places[place]?.openMinutes ?? 0) + (places[place]?.mendMinutes ?? 0));
    }
  });
  return Math.min(inOrder, bits / rate + mending);
}
