import { log2 } from '../elementary/ln.js';
import type { ChosenAction, Preference, Shortlisted } from './base-policy.js';
import type { OpenedInOrder } from './open-in-order.js';
import type { CheckFrom, WeighedAction } from './possible-actions.js';
import { checkWalkProblem } from './check-walk-problem.js';
import { WalkError } from './walk-error.js';
import { WalkProblem } from './walk-problem.js';
import { noSuspects, noTimes, type OpeningTimes, type WalkSuspects } from './walk-tables.js';

/** Set 0: nothing is at fault any more. */
export const NO_FAULTS = 0;

/** A checked problem with its sets of faults numbered, and all that depends on a set in tables. */
export interface PreparedWalk {
  problem: WalkProblem;
  /** The problem's, at `from * spots + to`. */
  walkMinutes: Float64Array;
  spots: number;
  /** Every world's set, and all that mending can leave of them. */
  sets: readonly (readonly number[])[];
  /** At `set * places + place`: the set without the place; the set itself if the place is not in it. */
  without: Int32Array;
  /** At `set * places + place`: the chance that opening the place does not show the fault; 0 if the place is not in it. */
  missed: Float64Array;
  /** By set: to open and mend each of its places, the least that it takes. */
  leastMinutes: Float64Array;
  /** By check. */
  chances: readonly OutcomeChances[];
  /** By check and set: entropy of the outcome, in bits, which is noise. */
  outcomeBits: readonly Float64Array[];
  start: WalkState;
  /** What was worked out of a state before: looking ahead comes back to the same ones. */
  known: WeakMap<WalkState, KnownOfState>;
  /** By spot: every check from there, worked out when it is asked for. */
  checksFrom: (readonly CheckFrom[] | undefined)[];
  work: WalkWork;
  suspects: WalkSuspects;
  /** By place, 0 but while suspects are listed. */
  chanceAt: Float64Array;
  missedAt: Float64Array;
  times: OpeningTimes;
}

/** P(outcome | set) at `set * outcomes + outcome`. */
export interface OutcomeChances {
  outcomes: number;
  values: Float64Array;
}

export interface KnownOfState {
  possible?: WeighedAction[];
  estimated?: number;
  inOrder?: OpenedInOrder;
  shortlist?: Shortlisted[];
  chosen: Partial<Record<Preference, ChosenAction>>;
}

/** What looking ahead has cost so far. */
export interface WalkWork {
  /** Actions weighed by what they tell. */
  weighed: number;
  /** Actions followed to what comes of them. */
  taken: number;
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
  /** Places that were opened and looked sound. */
  opened: readonly number[];
}

/** What is known of a state, to be added to. */
export function knownOf({ known }: PreparedWalk, state: WalkState): KnownOfState {
  const before = known.get(state);
  if (before !== undefined) return before;
  const made: KnownOfState = { chosen: {} };
  known.set(state, made);
  return made;
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
  for (let set = 0; set < sets.length; set++)
    for (let at = 0; at < (sets[set]?.length ?? 0); at++)
      numberOf(others(sets[set], at), others(kinds[set], at));
  const placeCount = problem.places.length;
  const without = new Int32Array(sets.length * placeCount);
  const missed = new Float64Array(sets.length * placeCount);
  sets.forEach((faults, set) => {
    without.fill(set, set * placeCount, (set + 1) * placeCount);
    faults.forEach((place, at) => {
      const kind = kinds[set]?.[at] ?? 0;
      without[set * placeCount + place] = numberOf(others(faults, at), others(kinds[set], at));
      missed[set * placeCount + place] = problem.places[place]?.missedChance?.(kind) ?? 0;
    });
  });
  const total = [...chances.values()].reduce((sum, chance) => sum + chance, 0);
  const tables = problem.checks.map((_, check) =>
    sets.map((faults, set) => chancesOf(problem, check, faults, kinds[set] ?? [])),
  );
  const chancesByCheck = tables.map((table): OutcomeChances => ({
    outcomes: table[0]?.length ?? 0,
    values: Float64Array.from(table.flat()),
  }));
  return {
    problem,
    walkMinutes: Float64Array.from(problem.walkMinutes.flat()),
    spots: problem.walkMinutes.length,
    sets,
    without,
    missed,
    leastMinutes: Float64Array.from(sets, (faults) => toMend(problem, faults)),
    chances: chancesByCheck,
    outcomeBits: tables.map((table) => Float64Array.from(table, entropyBits)),
    start: {
      spot: problem.startSpot,
      sets: [...chances.keys()],
      chances: [...chances.values()].map((chance) => chance / total),
      used: [],
      opened: problem.places.flatMap(({ isSeenSound }, place) => (isSeenSound ? [place] : [])),
    },
    known: new WeakMap(),
    checksFrom: [],
    work: { weighed: 0, taken: 0 },
    suspects: noSuspects(placeCount),
    chanceAt: new Float64Array(placeCount),
    missedAt: new Float64Array(placeCount),
    times: noTimes(placeCount),
  };
}

function others<T>(list: readonly T[] = [], at: number): T[] {
  return list.filter((_, k) => k !== at);
}

function toMend({ places }: WalkProblem, faults: readonly number[]): number {
  return faults.reduce((sum, place) => {
    const { openMinutes = 0, mendMinutes = 0 } = places[place] ?? {};
    return sum + openMinutes + mendMinutes;
  }, 0);
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
  return chances.reduce((bits, p) => (p > 0 ? bits - p * log2(p) : bits), 0);
}
