import { baseMinutes } from './base-minutes.js';
import { baseAction, ChosenAction, Preference } from './base-policy.js';
import { possibleActions } from './possible-actions.js';
import { PreparedWalk, WalkState } from './prepared-walk.js';
import { TakenAction, takeAction } from './take-action.js';

export interface RolledOut extends ChosenAction {
  /** Expected until all works, going on by the better of the simple policies. */
  minutes: number;
}

const SHORTLIST = 10;
const PREFERENCES: readonly Preference[] = ['information', 'minutes'];
/** First every candidate is followed roughly, then the most promising finely. */
const ROUGH_CHANCE = 0.2;
const FINE_CHANCE = 0.01;
const FINALISTS = 3;
/** With more sets of faults than this, branches are cut earlier in proportion: a step takes longer. */
const FINELY_FOLLOWED_SETS = 200;

/**
 * Looks one action ahead: each of the most telling actions per minute, and what the simple policies
 * would do, is followed by the better of the simple policies, and the least expected minutes win.
 * Testing stops by value of information, not at a confidence: opening is one of the actions, and
 * is chosen when no check saves more than it costs.
 */
export function rollout(prepared: PreparedWalk, state: WalkState): RolledOut {
  const candidates = new Map<string, ChosenAction>();
  const add = (chosen: ChosenAction) => {
    const { action } = chosen;
    candidates.set(
      action.kind === 'open' ? `open ${action.place}` : `check ${action.check}`,
      chosen,
    );
  };
  for (const preference of PREFERENCES) add(baseAction(prepared, state, preference));
  for (const { action } of possibleActions(prepared, state).slice(0, SHORTLIST)) {
    add({ action, taken: takeAction(prepared, state, action) });
  }
  const coarseness = Math.max(1, state.sets.length / FINELY_FOLLOWED_SETS);
  const followed = (leastChance: number) => (chosen: ChosenAction) => {
    return { ...chosen, minutes: minutesAfter(prepared, chosen.taken, coarseness * leastChance) };
  };
  const finalists = [...candidates.values()]
    .map(followed(ROUGH_CHANCE))
    .sort((a, b) => a.minutes - b.minutes)
    .slice(0, FINALISTS)
    .map(followed(FINE_CHANCE));
  return finalists.reduce((best, other) => (other.minutes < best.minutes - 1e-9 ? other : best));
}

function minutesAfter(prepared: PreparedWalk, taken: TakenAction, leastChance: number): number {
  return taken.branches.reduce((sum, { probability, mendMinutes, state }) => {
    if (state === null) return sum + probability * mendMinutes;
    const after = PREFERENCES.map((preference) =>
      baseMinutes(prepared, state, preference, leastChance / probability),
    );
    return sum + probability * (mendMinutes + Math.min(...after));
  }, taken.minutes);
}
