/* eslint-disable @typescript-eslint/no-non-null-assertion -- the walk's innermost loops, over tables of the prepared walk:
   every index is in range by construction */
import type { PreparedWalk, WalkState } from './prepared-walk.js';

/** Expected of one who knows what is at fault and is everywhere at once: nobody is done sooner. */
export function leastMinutes(prepared: PreparedWalk, { sets, chances }: WalkState): number {
  let minutes = 0;
  for (let i = 0; i < sets.length; i++) minutes += chances[i]! * prepared.leastMinutes[sets[i]!]!;
  return minutes;
}
