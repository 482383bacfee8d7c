/* eslint-disable @typescript-eslint/no-non-null-assertion -- the walk's innermost loops, over tables of the prepared walk:
   every index is in range by construction */
import { knownOf, PreparedWalk, WalkState } from './prepared-walk.js';
import { WalkSuspect, suspectsOf } from './suspects.js';
import type { WalkAction } from './walk-problem.js';

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

/** Instead of a chance. */
const TAKEN = -1;

/** When each place is opened, and when it is made anew. */
interface Times {
  opened: Float64Array;
  remade: Float64Array;
}

function openEach(prepared: PreparedWalk, state: WalkState): OpenedInOrder {
  const suspects = suspectsOf(prepared, state);
  let minutes = 0;
  for (const { chance, missedChance, mendMinutes } of suspects)
    minutes += (chance - missedChance) * mendMinutes;
  const order = inOrder(prepared, state.spot, suspects);
  const times = timesOf(prepared, state.spot, order);
  for (let i = 0; i < state.sets.length; i++)
    minutes += state.chances[i]! * lastMinutes(prepared, state, state.sets[i]!, times);
  const [first] = order;
  if (first === undefined) return { minutes, first: null };
  return { minutes, first: { kind: first.isOpened ? 'remake' : 'open', place: first.place } };
}

function inOrder(
  { problem }: PreparedWalk,
  from: number,
  suspects: readonly WalkSuspect[],
): WalkSuspect[] {
  const left = new LeftSuspects(suspects);
  const order: WalkSuspect[] = [];
  let walkMinutes = problem.walkMinutes[from]!;
  while (order.length < suspects.length) {
    const next = suspects[left.takeBest(walkMinutes)]!;
    order.push(next);
    walkMinutes = problem.walkMinutes[next.spot]!;
  }
  return order;
}

/** Suspects as flat tables: the choice among them is the walk's innermost loop. */
class LeftSuspects {
  private readonly chance: Float64Array;
  private readonly minutes: Float64Array;
  private readonly spot: Uint32Array;

  constructor(suspects: readonly WalkSuspect[]) {
    this.chance = new Float64Array(suspects.length);
    this.minutes = new Float64Array(suspects.length);
    this.spot = new Uint32Array(suspects.length);
    for (let i = 0; i < suspects.length; i++) {
      const { chance, minutes, spot } = suspects[i]!;
      this.chance[i] = chance;
      this.minutes[i] = minutes;
      this.spot[i] = spot;
    }
  }

  /** The first of those with the best ratio, which is left no more. */
  takeBest(walkMinutes: readonly number[]): number {
    const { chance, minutes: own, spot } = this;
    let best = -1;
    let bestRatio = -1;
    for (let i = 0; i < chance.length; i++) {
      if (chance[i]! < 0) continue;
      const minutes = walkMinutes[spot[i]!]! + own[i]!;
      const ratio = minutes > 0 ? chance[i]! / minutes : Infinity;
      if (ratio <= bestRatio) continue;
      bestRatio = ratio;
      best = i;
    }
    chance[best] = TAKEN;
    return best;
  }
}

function timesOf({ problem }: PreparedWalk, from: number, order: readonly WalkSuspect[]): Times {
  const opened = new Float64Array(problem.places.length);
  const remade = new Float64Array(problem.places.length);
  let spot = from;
  let elapsed = 0;
  const go = (to: number) => {
    elapsed += problem.walkMinutes[spot]?.[to] ?? 0;
    spot = to;
  };
  for (const suspect of order) {
    go(suspect.spot);
    elapsed += suspect.minutes;
    opened[suspect.place] = elapsed;
  }
  for (const suspect of order) {
    if (suspect.missedChance === 0) continue;
    go(suspect.spot);
    elapsed += suspect.minutes + suspect.mendMinutes;
    remade[suspect.place] = elapsed;
  }
  return { opened, remade };
}

/** Expected until the last fault of a set is mended; the chances that faults are missed are independent. */
function lastMinutes(prepared: PreparedWalk, state: WalkState, set: number, times: Times): number {
  let noneMissed = 1;
  let opened = 0;
  let remade = 0;
  const unseen = prepared.missed[set]!;
  for (const place of prepared.sets[set]!) {
    const at = times.opened[place]!;
    opened = Math.max(opened, at);
    const missed = state.opened.includes(place) ? 0 : unseen[place]!;
    noneMissed *= 1 - missed;
    remade = Math.max(remade, missed > 0 ? times.remade[place]! : at);
  }
  return noneMissed * opened + (1 - noneMissed) * remade;
}
