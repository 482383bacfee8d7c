import { takeAction } from '#app/walk/index.js';
import type { PreparedWalk, WalkAction, WalkState } from '#app/walk/index.js';

export type Policy = (prepared: PreparedWalk, state: WalkState) => WalkAction;

/** Exact expected minutes of a policy: every outcome of every action is followed to the end. */
export function policyMinutes(
  prepared: PreparedWalk,
  policy: Policy,
  state = prepared.start,
): number {
  const { minutes, branches } = takeAction(prepared, state, policy(prepared, state));
  return branches.reduce((sum, { probability, mendMinutes, state: next }) => {
    return sum + probability * (mendMinutes + (next ? policyMinutes(prepared, policy, next) : 0));
  }, minutes);
}
