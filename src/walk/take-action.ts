/* eslint-disable @typescript-eslint/no-non-null-assertion -- the walk's innermost loops, over tables of the prepared walk:
   every index is in range by construction */
import { NO_FAULTS, PreparedWalk, WalkState } from './prepared-walk.js';
import { WalkAction } from './walk-problem.js';

/** One way in which an action can end. */
export interface Branch {
  /** The place opened was found at fault and is mended, or it was made anew. */
  isFound: boolean;
  /** Of the check; null where none was seen. */
  outcome: number | null;
  probability: number;
  /** On top of the action's. */
  mendMinutes: number;
  /** Null: every function works again. */
  state: WalkState | null;
}

export interface TakenAction {
  /** To walk there and to check, to open or to make anew. */
  minutes: number;
  branches: Branch[];
}

/** What an action costs and how it can end, with Bayes' rule for each ending. */
export function takeAction(
  prepared: PreparedWalk,
  state: WalkState,
  action: WalkAction,
): TakenAction {
  prepared.work.taken++;
  const { problem } = prepared;
  if (action.kind === 'check') {
    const check = problem.checks[action.check];
    if (check === undefined) throw new RangeError(`there is no check ${action.check}`);
    const there = { ...state, spot: check.spot };
    return {
      minutes: walked(prepared, state.spot, check.spot) + check.minutes,
      branches: splitByCheck(prepared, there, action.check, 1),
    };
  }
  const place = problem.places[action.place];
  if (place === undefined) throw new RangeError(`there is no place ${action.place}`);
  const { spot, openMinutes, mendMinutes, falseChance = 0 } = place;
  const minutes = walked(prepared, state.spot, spot) + openMinutes;
  const there = { ...state, spot };
  if (action.kind === 'remake') {
    const branches = mendedBranches(prepared, there, action.place, () => 1, 1);
    return { minutes: minutes + mendMinutes, branches };
  }
  const cell = (set: number) => set * problem.places.length + action.place;
  const missed = (set: number) => prepared.missed[cell(set)] ?? 0;
  const isSeen = (set: number) => 1 - missed(set);
  const branches = mendedBranches(prepared, there, action.place, isSeen, falseChance);
  for (const branch of branches) branch.mendMinutes = mendMinutes;
  const isSuspect = (set: number) => prepared.without[cell(set)] !== set;
  const sound = kept(there, (set) => (isSuspect(set) ? missed(set) : 1 - falseChance));
  if (sound.probability > 0) {
    const after = { ...sound.state, opened: [...state.opened, action.place] };
    if (place.check === undefined) branches.push(plainBranch(after, sound.probability));
    else branches.push(...splitByCheck(prepared, after, place.check, sound.probability));
  }
  return { minutes, branches };
}

function walked({ problem }: PreparedWalk, from: number, to: number): number {
  return problem.walkMinutes[from]?.[to] ?? 0;
}

/**
 * The place was mended: the work is done, or goes on with what is left of each set. `mended`: the chance of it where the
 * place is at fault, by set; `falsely`: where it is not.
 */
function mendedBranches(
  prepared: PreparedWalk,
  state: WalkState,
  place: number,
  mended: (set: number) => number,
  falsely: number,
): Branch[] {
  const left = new Map<number, number>();
  for (let i = 0; i < state.sets.length; i++) {
    const set = state.sets[i]!;
    const rest = prepared.without[set * prepared.problem.places.length + place]!;
    const chance = state.chances[i]! * (rest === set ? falsely : mended(set));
    if (chance > 0) left.set(rest, (left.get(rest) ?? 0) + chance);
  }
  const done = left.get(NO_FAULTS) ?? 0;
  left.delete(NO_FAULTS);
  const more = [...left.values()].reduce((sum, chance) => sum + chance, 0);
  const found = { isFound: true, outcome: null, mendMinutes: 0 };
  const branches: Branch[] = [];
  if (done > 0) branches.push({ ...found, probability: done, state: null });
  if (more > 0) {
    const chances = [...left.values()].map((chance) => chance / more);
    const { spot, opened } = state;
    const next = { spot, sets: [...left.keys()], chances, used: [], opened };
    branches.push({ ...found, probability: more, state: next });
  }
  return branches;
}

function splitByCheck(prepared: PreparedWalk, state: WalkState, check: number, share: number) {
  if (state.used.includes(check)) return [plainBranch(state, share)];
  const used = [...state.used, check];
  const { outcomes, values } = prepared.chances[check]!;
  const branches: Branch[] = [];
  for (let outcome = 0; outcome < outcomes; outcome++) {
    const rest = kept(state, (set) => values[set * outcomes + outcome]!);
    if (rest.probability === 0) continue;
    const branch = plainBranch({ ...rest.state, used }, share * rest.probability);
    branches.push({ ...branch, outcome });
  }
  return branches;
}

function plainBranch(state: WalkState, probability: number): Branch {
  return { isFound: false, outcome: null, probability, mendMinutes: 0, state };
}

/** The state after something that has this likelihood for each set, and its probability. */
function kept(state: WalkState, likelihood: (set: number) => number) {
  // Most of what is seen rules nothing out: the list of sets is shared then. Copies are written over, and not grown.
  const chances = state.chances.slice();
  let sets = state.sets;
  let count = 0;
  let probability = 0;
  for (let i = 0; i < state.sets.length; i++) {
    const set = state.sets[i]!;
    const chance = chances[i]! * likelihood(set);
    if (chance <= 0) continue;
    chances[count++] = chance;
    probability += chance;
  }
  if (count < state.sets.length) {
    sets = state.sets.filter((set, i) => state.chances[i]! * likelihood(set) > 0);
    chances.length = count;
  }
  for (let i = 0; i < count; i++) chances[i]! /= probability;
  const { spot, used, opened } = state;
  return { probability, state: { spot, sets, chances, used, opened } };
}
