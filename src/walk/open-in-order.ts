import { PreparedWalk, WalkState } from './prepared-walk.js';
import { WalkSuspect, suspectsOf } from './suspects.js';

export interface OpenedInOrder {
  /** Expected, until all works. */
  minutes: number;
  /** The place to open first; null where nothing is suspect. */
  first: number | null;
}

/**
 * Opens one suspect place after the other without any check: always the one with the most chance
 * of a fault per minute of walking and opening (the ratio rule of Kadane and Simon 1977, which is
 * optimal where costs do not depend on the order; with walking it is a good start). The order is
 * fixed beforehand; every world ends when the last of its faults is opened and mended.
 */
export function openInOrder(prepared: PreparedWalk, state: WalkState): OpenedInOrder {
  const { problem } = prepared;
  const suspects = suspectsOf(prepared, state);
  const openedAt: number[] = [];
  let minutes = suspects.reduce((sum, { place, chance }) => {
    return sum + chance * (problem.places[place]?.mendMinutes ?? 0);
  }, 0);
  let spot = state.spot;
  let elapsed = 0;
  let first: number | null = null;
  while (suspects.length > 0) {
    const row = problem.walkMinutes[spot] ?? [];
    const next = takeBest(suspects, row);
    if (next === undefined) break;
    first ??= next.place;
    elapsed += (row[next.spot] ?? 0) + next.openMinutes;
    openedAt[next.place] = elapsed;
    spot = next.spot;
  }
  state.sets.forEach((set, i) => {
    const faults = prepared.sets[set] ?? [];
    const last = faults.reduce((latest, place) => Math.max(latest, openedAt[place] ?? 0), 0);
    minutes += (state.chances[i] ?? 0) * last;
  });
  return { minutes, first };
}

/** Removes the first of those with the best ratio from the list. */
function takeBest(
  suspects: WalkSuspect[],
  walkMinutes: readonly number[],
): WalkSuspect | undefined {
  let best = 0;
  let bestRatio = -1;
  for (let i = 0; i < suspects.length; i++) {
    const { chance = 0, spot = 0, openMinutes = 0 } = suspects[i] ?? {};
    const minutes = (walkMinutes[spot] ?? 0) + openMinutes;
    const ratio = minutes > 0 ? chance / minutes : Infinity;
    if (ratio > bestRatio) {
      bestRatio = ratio;
      best = i;
    }
  }
  return suspects.splice(best, 1)[0];
}
