/* eslint-disable @typescript-eslint/no-non-null-assertion -- the walk's innermost loops, over tables of the prepared walk:
   every index is in range by construction */
import { knownOf, PreparedWalk, WalkState } from './prepared-walk.js';
import { suspectsOf } from './suspects.js';
import type { WalkAction } from './walk-problem.js';
import type { WalkSuspects } from './walk-tables.js';

export interface OpenedInOrder {
  /** Expected, until all works. */
  minutes: number;
  /** What to do first; null where nothing is suspect. */
  first: WalkAction | null;
}

/**
 * Opens one suspect place after the other without any check: always the one with the most chance
 * of a fault per minute of walking and opening (the ratio rule of Kadane and Simon 1977, which is
 * optimal where costs do not depend on the order; with walking it is a good start). The order is
 * fixed beforehand; every world ends when the last of its faults is mended. Whatever was missed is
 * made anew after that, in the same order.
 */
export function openInOrder(prepared: PreparedWalk, state: WalkState): OpenedInOrder {
  const known = knownOf(prepared, state);
  known.inOrder ??= openEach(prepared, state);
  return known.inOrder;
}

function openEach(prepared: PreparedWalk, state: WalkState): OpenedInOrder {
  const suspects = suspectsOf(prepared, state);
  const { count, chance, missedChance, mendMinutes } = suspects;
  if (count === 0) return { minutes: 0, first: null };
  let minutes = 0;
  for (let i = 0; i < count; i++) minutes += (chance[i]! - missedChance[i]!) * mendMinutes[i]!;
  putInOrder(prepared, state.spot, suspects);
  setTimes(prepared, state.spot, suspects);
  for (let i = 0; i < state.sets.length; i++)
    minutes += state.chances[i]! * lastMinutes(prepared, state, state.sets[i]!);
  const first = prepared.times.order[0]!;
  const kind = suspects.isOpened[first] === 1 ? 'remake' : 'open';
  return { minutes, first: { kind, place: suspects.place[first]! } };
}

/** Of those left always the first with the best ratio: the walk's innermost loop. */
function putInOrder(prepared: PreparedWalk, from: number, suspects: WalkSuspects): void {
  const { walkMinutes, spots, times } = prepared;
  const { count, chance, minutes: own, spot } = suspects;
  const { order, left } = times;
  for (let i = 0; i < count; i++) left[i] = i;
  let row = from * spots;
  for (let taken = 0; taken < count; taken++) {
    let best = 0;
    let bestRatio = -1;
    for (let k = 0; k < count - taken; k++) {
      const i = left[k]!;
      const ratio = chance[i]! / (walkMinutes[row + spot[i]!]! + own[i]!);
      if (ratio <= bestRatio) continue;
      bestRatio = ratio;
      best = k;
    }
    const next = left[best]!;
    order[taken] = next;
    left.copyWithin(best, best + 1, count - taken);
    row = spot[next]! * spots;
  }
}

function setTimes(prepared: PreparedWalk, from: number, suspects: WalkSuspects): void {
  const { walkMinutes, spots, times } = prepared;
  const { count, place, spot, minutes, mendMinutes, missedChance } = suspects;
  let at = from;
  let elapsed = 0;
  for (let k = 0; k < count; k++) {
    const i = times.order[k]!;
    elapsed += walkMinutes[at * spots + spot[i]!]! + minutes[i]!;
    at = spot[i]!;
    times.opened[place[i]!] = elapsed;
  }
  for (let k = 0; k < count; k++) {
    const i = times.order[k]!;
    if (missedChance[i] === 0) continue;
    elapsed += walkMinutes[at * spots + spot[i]!]! + (minutes[i]! + mendMinutes[i]!);
    at = spot[i]!;
    times.remade[place[i]!] = elapsed;
  }
}

/** Expected until the last fault of a set is mended; the chances that faults are missed are independent. */
function lastMinutes(prepared: PreparedWalk, state: WalkState, set: number): number {
  const { problem, sets, missed, times } = prepared;
  const first = set * problem.places.length;
  let noneMissed = 1;
  let opened = 0;
  let remade = 0;
  for (const place of sets[set]!) {
    const at = times.opened[place]!;
    const unseen = state.opened.includes(place) ? 0 : missed[first + place]!;
    const remadeAt = unseen > 0 ? times.remade[place]! : at;
    if (at > opened) opened = at;
    noneMissed *= 1 - unseen;
    if (remadeAt > remade) remade = remadeAt;
  }
  return noneMissed * opened + (1 - noneMissed) * remade;
}
