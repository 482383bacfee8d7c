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

/** When each place is opened, and when it is made anew. */
interface Times {
  opened: Float64Array;
  remade: Float64Array;
}

function openEach(prepared: PreparedWalk, state: WalkState): OpenedInOrder {
  const suspects = suspectsOf(prepared, state);
  let minutes = suspects.reduce(
    (sum, { chance, missedChance, mendMinutes }) => sum + (chance - missedChance) * mendMinutes,
    0,
  );
  const order = inOrder(prepared, state.spot, suspects);
  const times = timesOf(prepared, state.spot, order);
  state.sets.forEach((set, i) => {
    minutes += (state.chances[i] ?? 0) * lastMinutes(prepared, state, set, times);
  });
  const [first] = order;
  if (first === undefined) return { minutes, first: null };
  return { minutes, first: { kind: first.isOpened ? 'remake' : 'open', place: first.place } };
}

function inOrder({ problem }: PreparedWalk, from: number, suspects: WalkSuspect[]): WalkSuspect[] {
  const order: WalkSuspect[] = [];
  let spot = from;
  while (suspects.length > 0) {
    const next = takeBest(suspects, problem.walkMinutes[spot] ?? []);
    if (next === undefined) break;
    order.push(next);
    spot = next.spot;
  }
  return order;
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
  for (const place of prepared.sets[set] ?? []) {
    const at = times.opened[place] ?? 0;
    opened = Math.max(opened, at);
    const missed = state.opened.includes(place) ? 0 : (prepared.missed[set]?.[place] ?? 0);
    noneMissed *= 1 - missed;
    remade = Math.max(remade, missed > 0 ? (times.remade[place] ?? 0) : at);
  }
  return noneMissed * opened + (1 - noneMissed) * remade;
}

/** Removes the first of those with the best ratio from the list. */
function takeBest(
  suspects: WalkSuspect[],
  walkMinutes: readonly number[],
): WalkSuspect | undefined {
  let best = 0;
  let bestRatio = -1;
  for (let i = 0; i < suspects.length; i++) {
    const { chance = 0, spot = 0, minutes: own = 0 } = suspects[i] ?? {};
    const minutes = (walkMinutes[spot] ?? 0) + own;
    const ratio = minutes > 0 ? chance / minutes : Infinity;
    if (ratio > bestRatio) {
      bestRatio = ratio;
      best = i;
    }
  }
  return suspects.splice(best, 1)[0];
}
