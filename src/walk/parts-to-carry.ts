import { WalkError } from './walk-error.js';
import { World } from './walk-problem.js';

export interface Part {
  id: string;
  /** What it costs to take it along, in minutes: fetching, weight, its absence elsewhere. */
  carryMinutes: number;
  /** Chance that it is needed when exactly these places are at fault. */
  neededChance: (faults: readonly number[]) => number;
}

export interface CarriedPart {
  id: string;
  /** Chance that it is needed. */
  neededChance: number;
  isCarried: boolean;
}

export interface PartsToCarry {
  /** Most needed first, then by id. */
  parts: CarriedPart[];
  /** That some part that was not taken is needed. */
  secondTripChance: number;
}

/** All ways of taking so many parts are tried: 4,096. */
const MOST_WEIGHED = 12;

/**
 * Which parts to take: each costs its carrying, and one second trip is due if any part is missing
 * (parts are needed independently, given the faults). A part whose chance times the second trip
 * does not exceed its carrying stays behind in every case. Of the others the best selection is
 * found by trying all; beyond twelve, those most likely needed are weighed and the rest taken.
 * Throws {@link WalkError}.
 */
export function partsToCarry(
  worlds: readonly World[],
  parts: readonly Part[],
  secondTripMinutes: number,
): PartsToCarry {
  requireMinutes('secondTripMinutes', secondTripMinutes);
  const needed = parts.map(({ neededChance, carryMinutes }, i) => {
    requireMinutes(`parts/${i}/carryMinutes`, carryMinutes);
    return worlds.map(({ faults }) =>
      requireChance(`parts/${i}/neededChance`, neededChance(faults)),
    );
  });
  const overall = needed.map((chances) =>
    chances.reduce((sum, chance, w) => sum + chance * (worlds[w]?.probability ?? 0), 0),
  );
  const missing = (carried: readonly boolean[]) =>
    worlds.reduce((sum, { probability }, w) => {
      const noneMissing = needed.reduce(
        (product, chances, i) => (carried[i] ? product : product * (1 - (chances[w] ?? 0))),
        1,
      );
      return sum + probability * (1 - noneMissing);
    }, 0);
  const minutes = (carried: readonly boolean[]) =>
    parts.reduce((sum, { carryMinutes }, i) => sum + (carried[i] ? carryMinutes : 0), 0) +
    secondTripMinutes * missing(carried);

  const worthwhile = parts
    .map((_, i) => i)
    .filter((i) => (overall[i] ?? 0) * secondTripMinutes > (parts[i]?.carryMinutes ?? 0))
    .sort((a, b) => (overall[b] ?? 0) - (overall[a] ?? 0));
  const weighed = worthwhile.slice(0, MOST_WEIGHED);
  let carried = parts.map((_, i) => worthwhile.includes(i));
  let least = minutes(carried);
  for (let left = 1; left < 2 ** weighed.length; left++) {
    const isLeft = (i: number) => weighed.includes(i) && ((left >> weighed.indexOf(i)) & 1) === 1;
    const selection = parts.map((_, i) => worthwhile.includes(i) && !isLeft(i));
    const selectionMinutes = minutes(selection);
    if (selectionMinutes < least - 1e-9) {
      least = selectionMinutes;
      carried = selection;
    }
  }
  const answer = parts.map(({ id }, i): CarriedPart => {
    return { id, neededChance: overall[i] ?? 0, isCarried: carried[i] ?? false };
  });
  answer.sort((a, b) => b.neededChance - a.neededChance || (a.id < b.id ? -1 : 1));
  return { parts: answer, secondTripChance: missing(carried) };
}

function requireMinutes(field: string, minutes: number): void {
  if (!(minutes >= 0 && Number.isFinite(minutes))) {
    throw new WalkError(field, `cannot be ${minutes} minutes`);
  }
}

function requireChance(field: string, chance: number): number {
  if (!(chance >= 0 && chance <= 1)) throw new WalkError(field, `${chance} is no chance`);
  return chance;
}
