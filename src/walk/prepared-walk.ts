import type { ChosenAction, Preference } from './base-policy.js';
import { checkWalkProblem } from './check-walk-problem.js';
import { WalkError } from './walk-error.js';
import { WalkProblem } from './walk-problem.js';

/** Set 0: nothing is at fault any more. */
export const NO_FAULTS = 0;

/** A checked problem with its sets of faults numbered, and all that depends on a set in tables. */
export interface PreparedWalk {
  problem: WalkProblem;
  /** Every world's set, and all that mending can leave of them. */
  sets: readonly (readonly number[])[];
  /** By set and place: the set without the place; undefined if the place is not in it. */
  without: readonly (readonly (number | undefined)[])[];
  /** By check, set and outcome. */
  chances: readonly (readonly (readonly number[])[])[];
  /** By check and set: entropy of the outcome, in bits, which is noise. */
  outcomeBits: readonly (readonly number[])[];
  start: WalkState;
  /** What the simple policies chose before, by state: looking ahead comes back to the same ones. */
  chosenBefore: Readonly<Record<Preference, WeakMap<WalkState, ChosenAction>>>;
}

/** What is known: where one stands, and the chances of the sets that are still possible. */
export interface WalkState {
  spot: number;
  /** Never set 0: then the work is done. */
  sets: readonly number[];
  /** Of each set; they sum to 1. */
  chances: readonly number[];
  /** Checks made since the last mending. */
  used: readonly number[];
}

const ROUNDING = 1e-6;

/** Throws {@link WalkError} for a problem that cannot be. */
export function prepareWalk(problem: WalkProblem): PreparedWalk {
  checkWalkProblem(problem);
  const { sets, kinds, numberOf } = numberedSets();
  const chances = new Map<number, number>();
  for (const { faults, kinds: own, probability } of problem.worlds) {
    const set = numberOf(faults, own ?? faults.map(() => 0));
    if (probability > 0) chances.set(set, (chances.get(set) ?? 0) + probability);
  }
  const without: (number | undefined)[][] = [];
  for (let set = 0; set < sets.length; set++) {
    const faults = sets[set] ?? [];
    const rest: (number | undefined)[] = [];
    faults.forEach((place, at) => {
      const others = <T>(list: readonly T[] = []) => list.filter((_, k) => k !== at);
      rest[place] = numberOf(others(faults), others(kinds[set]));
    });
    without.push(rest);
  }
  const total = [...chances.values()].reduce((sum, chance) => sum + chance, 0);
  const tables = problem.checks.map((_, check) =>
    sets.map((faults, set) => chancesOf(problem, check, faults, kinds[set] ?? [])),
  );
  return {
    problem,
    sets,
    without,
    chances: tables,
    outcomeBits: tables.map((table) => table.map(entropyBits)),
    start: {
      spot: problem.startSpot,
      sets: [...chances.keys()],
      chances: [...chances.values()].map((chance) => chance / total),
      used: [],
    },
    chosenBefore: { information: new WeakMap(), minutes: new WeakMap() },
  };
}

/** Sets of faults by number; the same places at fault in other ways are another set. Set 0 has none. */
function numberedSets() {
  const sets: (readonly number[])[] = [[]];
  const kinds: (readonly number[])[] = [[]];
  const numbers = new Map<string, number>([[' ', NO_FAULTS]]);
  const numberOf = (faults: readonly number[], own: readonly number[]) => {
    const key = `${faults.join()} ${own.join()}`;
    const known = numbers.get(key);
    if (known !== undefined) return known;
    numbers.set(key, sets.length);
    kinds.push(own);
    return sets.push(faults) - 1;
  };
  return { sets, kinds, numberOf };
}

function chancesOf(
  problem: WalkProblem,
  index: number,
  faults: readonly number[],
  kinds: readonly number[],
) {
  const check = problem.checks[index];
  const chances = check?.chances(faults, kinds) ?? [];
  const total = chances.reduce((sum, chance) => sum + chance, 0);
  const isGood = chances.every((chance) => chance >= 0) && Math.abs(total - 1) <= ROUNDING;
  if (!isGood || chances.length !== check?.outcomes.length) {
    throw new WalkError(`checks/${index}/chances`, `are no chances with faults [${faults.join()}]`);
  }
  return chances;
}

function entropyBits(chances: readonly number[]): number {
  return chances.reduce((bits, p) => (p > 0 ? bits - p * Math.log2(p) : bits), 0);
}
