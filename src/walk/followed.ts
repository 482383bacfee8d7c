import { leastMinutes } from './least-minutes.js';
import type { PreparedWalk, WalkState } from './prepared-walk.js';
import type { TakenAction } from './take-action.js';

/** Sums of minutes are right to this. */
const ROUNDING_MINUTES = 1e-9;

/**
 * Expected minutes of an action and what follows it, `after` telling those of a branch. As soon as it is certain that they
 * are `most` or more, something that is no less: nobody asks how much longer it would take. `after` is told from how many minutes on
 * that would be so.
 */
export function followed(
  prepared: PreparedWalk,
  { minutes, branches }: TakenAction,
  most: number,
  after: (state: WalkState, probability: number, most: number) => number,
): number {
  let least = minutes;
  for (const { probability, mendMinutes, state } of branches)
    least += probability * (mendMinutes + (state === null ? 0 : leastMinutes(prepared, state)));
  let sum = minutes;
  for (const { probability, mendMinutes, state } of branches) {
    if (state === null) {
      sum += probability * mendMinutes;
      continue;
    }
    const spare = most + ROUNDING_MINUTES - least;
    if (spare <= 0) return Math.max(least, most);
    const leastThere = leastMinutes(prepared, state);
    const there = after(state, probability, leastThere + spare / probability);
    sum += probability * (mendMinutes + there);
    least += probability * (there - leastThere);
  }
  return sum;
}
