/* eslint-disable @typescript-eslint/no-non-null-assertion -- the walk's innermost loops, over tables of the prepared walk:
   every index is in range by construction */
import type { PreparedWalk, WalkState } from './prepared-walk.js';
import type { WalkSuspects } from './walk-tables.js';

/** Good until it is asked for the next state. */
export function suspectsOf(prepared: PreparedWalk, state: WalkState): WalkSuspects {
  const { problem, sets, missed, suspects, chanceAt, missedAt } = prepared;
  const { places } = problem;
  for (let i = 0; i < state.sets.length; i++) {
    const set = state.sets[i]!;
    const chance = state.chances[i]!;
    for (const place of sets[set]!) {
      chanceAt[place]! += chance;
      missedAt[place]! += chance * missed[set * places.length + place]!;
    }
  }
  let count = 0;
  for (let at = 0; at < places.length; at++) {
    const chance = chanceAt[at]!;
    if (chance === 0) continue;
    const { spot, openMinutes, mendMinutes } = places[at]!;
    const isOpened = state.opened.includes(at);
    suspects.place[count] = at;
    suspects.spot[count] = spot;
    suspects.isOpened[count] = isOpened ? 1 : 0;
    suspects.minutes[count] = isOpened ? openMinutes + mendMinutes : openMinutes;
    suspects.mendMinutes[count] = isOpened ? 0 : mendMinutes;
    suspects.chance[count] = chance;
    suspects.missedChance[count] = isOpened ? 0 : missedAt[at]!;
    chanceAt[at] = 0;
    missedAt[at] = 0;
    count++;
  }
  suspects.count = count;
  return suspects;
}
