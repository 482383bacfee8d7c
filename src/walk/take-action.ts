import { NO_FAULTS, PreparedWalk, WalkState } from './prepared-walk.js';
import { WalkAction } from './walk-problem.js';

/** One way in which an action can end. */
export interface Branch {
  /** The place opened was at fault and is mended. */
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
  /** To walk there and to check or to open. */
  minutes: number;
  branches: Branch[];
}

/** What an action costs and how it can end, with Bayes' rule for each ending. */
export function takeAction(
  prepared: PreparedWalk,
  state: WalkState,
  action: WalkAction,
): TakenAction {
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
  const minutes = walked(prepared, state.spot, place.spot) + place.openMinutes;
  const there = { ...state, spot: place.spot };
  const branches = foundBranches(prepared, there, action.place, place.mendMinutes);
  const sound = kept(there, (set) => (prepared.without[set]?.[action.place] === undefined ? 1 : 0));
  if (sound.probability > 0) {
    if (place.check === undefined) branches.push(plainBranch(sound.state, sound.probability));
    else branches.push(...splitByCheck(prepared, sound.state, place.check, sound.probability));
  }
  return { minutes, branches };
}

function walked({ problem }: PreparedWalk, from: number, to: number): number {
  return problem.walkMinutes[from]?.[to] ?? 0;
}

/** The fault was here: the work is done, or goes on with what is left of each set. */
function foundBranches(
  prepared: PreparedWalk,
  state: WalkState,
  place: number,
  mendMinutes: number,
): Branch[] {
  const left = new Map<number, number>();
  state.sets.forEach((set, i) => {
    const rest = prepared.without[set]?.[place];
    if (rest !== undefined) left.set(rest, (left.get(rest) ?? 0) + (state.chances[i] ?? 0));
  });
  const done = left.get(NO_FAULTS) ?? 0;
  left.delete(NO_FAULTS);
  const more = [...left.values()].reduce((sum, chance) => sum + chance, 0);
  const found = { isFound: true, outcome: null, mendMinutes };
  const branches: Branch[] = [];
  if (done > 0) branches.push({ ...found, probability: done, state: null });
  if (more > 0) {
    const chances = [...left.values()].map((chance) => chance / more);
    const next = { spot: state.spot, sets: [...left.keys()], chances, used: [] };
    branches.push({ ...found, probability: more, state: next });
  }
  return branches;
}

function splitByCheck(prepared: PreparedWalk, state: WalkState, check: number, share: number) {
  if (state.used.includes(check)) return [plainBranch(state, share)];
  const used = [...state.used, check];
  const outcomes = prepared.problem.checks[check]?.outcomes ?? [];
  return outcomes.flatMap((_, outcome): Branch[] => {
    const rest = kept(state, (set) => prepared.chances[check]?.[set]?.[outcome] ?? 0);
    if (rest.probability === 0) return [];
    const branch = plainBranch({ ...rest.state, used }, share * rest.probability);
    return [{ ...branch, outcome }];
  });
}

function plainBranch(state: WalkState, probability: number): Branch {
  return { isFound: false, outcome: null, probability, mendMinutes: 0, state };
}

/** The state after something that has this likelihood for each set, and its probability. */
function kept(state: WalkState, likelihood: (set: number) => number) {
  const sets: number[] = [];
  const chances: number[] = [];
  let probability = 0;
  state.sets.forEach((set, i) => {
    const chance = (state.chances[i] ?? 0) * likelihood(set);
    if (chance <= 0) return;
    sets.push(set);
    chances.push(chance);
    probability += chance;
  });
  const normalised = chances.map((chance) => chance / probability);
  return { probability, state: { ...state, sets, chances: normalised } };
}
