import { followed } from './followed.js';
import { openInOrder } from './open-in-order.js';
import { possibleActions } from './possible-actions.js';
import { knownOf, PreparedWalk, WalkState } from './prepared-walk.js';
import { TakenAction, takeAction } from './take-action.js';
import type { WalkAction } from './walk-problem.js';

/** What a simple policy goes for: what tells most per minute, or what saves most minutes at once. */
export type Preference = 'information' | 'minutes';

export interface ChosenAction {
  action: WalkAction;
  taken: TakenAction;
}

/** So many of the most telling actions are weighed; the rest are hardly ever best. */
const SHORTLIST = 6;

/**
 * A quick rule: of the most telling actions per minute, those after which opening in order is
 * expected to be done sooner than opening in order from here (the value of their information
 * exceeds their cost); of these the most telling, or the one that saves most. When none is worth
 * its minutes, the first place in order is opened.
 */
export function baseAction(
  prepared: PreparedWalk,
  state: WalkState,
  preference: Preference,
): ChosenAction {
  const { chosen } = knownOf(prepared, state);
  chosen[preference] ??= choose(prepared, state, preference);
  return chosen[preference];
}

function choose(prepared: PreparedWalk, state: WalkState, preference: Preference): ChosenAction {
  const inOrder = openInOrder(prepared, state);
  if (inOrder.first === null) throw new RangeError('a state without a suspect place');
  let best: ChosenAction | null = null;
  let leastMinutes = inOrder.minutes - 1e-9;
  for (const one of shortlisted(prepared, state)) {
    const { action, taken } = one;
    const minutes = thenInOrder(prepared, one, leastMinutes);
    if (minutes >= leastMinutes) continue;
    best = { action, taken };
    if (preference === 'information') break;
    leastMinutes = minutes;
  }
  if (best !== null) return best;
  const action = inOrder.first;
  return { action, taken: takeAction(prepared, state, action) };
}

export interface Shortlisted extends ChosenAction {
  /** Expected with opening in order afterwards; of no less than `most` only that it is none. */
  minutes: number;
  most: number;
}

/** The most telling actions; one after the other, as few may be asked for. */
function* shortlisted(prepared: PreparedWalk, state: WalkState): Generator<Shortlisted> {
  const known = knownOf(prepared, state);
  known.shortlist ??= [];
  for (let k = 0; k < SHORTLIST; k++) {
    const action = possibleActions(prepared, state)[k]?.action;
    if (action === undefined) return;
    const taken = known.shortlist[k]?.taken ?? takeAction(prepared, state, action);
    const one = known.shortlist[k] ?? { action, taken, minutes: 0, most: 0 };
    known.shortlist[k] = one;
    yield one;
  }
}

function thenInOrder(prepared: PreparedWalk, one: Shortlisted, most: number): number {
  if (one.minutes >= one.most && one.most < most) {
    one.most = most;
    one.minutes = followed(
      prepared,
      one.taken,
      most,
      (state) => openInOrder(prepared, state).minutes,
    );
  }
  return one.minutes;
}
