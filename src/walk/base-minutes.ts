import { baseAction, Preference } from './base-policy.js';
import { leastMinutes } from './least-minutes.js';
import { followed } from './followed.js';
import { openInOrder } from './open-in-order.js';
import { bestRate, entropyBits } from './possible-actions.js';
import { knownOf, PreparedWalk, WalkState } from './prepared-walk.js';

/** How far a policy is followed. */
interface Followed {
  preference: Preference;
  /** Branches that are reached with less are estimated. */
  leastChance: number;
}

/**
 * Expected minutes of the simple policy from a state; from `most` on, something that is no less.
 */
export function baseMinutes(
  prepared: PreparedWalk,
  state: WalkState,
  { preference, leastChance }: Followed,
  most: number,
): number {
  if (leastChance >= 1) return estimatedMinutes(prepared, state);
  const { taken } = baseAction(prepared, state, preference);
  return followed(prepared, taken, most, (next, probability, mostThere) =>
    baseMinutes(prepared, next, { preference, leastChance: leastChance / probability }, mostThere),
  );
}

/**
 * Opening in order, or, if that is less: what is not known yet at the best rate of learning, and
 * then opening and mending what is at fault.
 */
export function estimatedMinutes(prepared: PreparedWalk, state: WalkState): number {
  const known = knownOf(prepared, state);
  known.estimated ??= estimate(prepared, state);
  return known.estimated;
}

function estimate(prepared: PreparedWalk, state: WalkState): number {
  const inOrder = openInOrder(prepared, state).minutes;
  const mending = leastMinutes(prepared, state);
  const bits = entropyBits(state);
  // Only who learns faster than this is done sooner than by opening in order.
  const rate = bestRate(prepared, state, bits / (inOrder - mending), bits);
  return rate > 0 ? Math.min(inOrder, bits / rate + mending) : inOrder;
}
