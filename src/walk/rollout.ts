import { baseMinutes } from './base-minutes.js';
import { baseAction, ChosenAction, Preference } from './base-policy.js';
import { possibleActions } from './possible-actions.js';
import { PreparedWalk, WalkState } from './prepared-walk.js';
import { TakenAction, takeAction } from './take-action.js';

export interface RolledOut extends ChosenAction {
  /** Expected until all works, going on by the better of the simple policies. */
  minutes: number;
}

const PREFERENCES: readonly Preference[] = ['information', 'minutes'];
/** First every candidate is followed roughly, then the most promising finely. */
const ROUGH_CHANCE = 0.2;
const FINE_CHANCE = 0.01;
const FINALISTS = 3;
/** With more to weigh in each state than this (sets of faults times actions), branches are cut earlier in proportion. */
const FINELY_FOLLOWED = 200;
/** But no earlier than this. */
const LEAST_ROUGH_CHANCE = 0.5;
const LEAST_FINE_CHANCE = 0.1;

/**
 * Looks one action ahead: each of the most telling actions per minute, and what the simple policies
 * would do, is followed by the better of the simple policies, and the least expected minutes win.
 * Testing stops by value of information, not at a confidence: opening is one of the actions, and
 * is chosen when no check saves more than it costs. `reachedChance`: of the state itself; what is seldom reached is followed
 * less far.
 */
export function rollout(prepared: PreparedWalk, state: WalkState, reachedChance = 1): RolledOut {
  const candidates = new Map<string, ChosenAction>();
  const add = (chosen: ChosenAction) => {
    candidates.set(JSON.stringify(chosen.action), chosen);
  };
  for (const preference of PREFERENCES) add(baseAction(prepared, state, preference));
  for (const { action } of possibleActions(prepared, state)) {
    add({ action, taken: takeAction(prepared, state, action) });
  }
  const { places, checks } = prepared.problem;
  const toWeigh = state.sets.length * (places.length + checks.length);
  const coarseness = Math.max(1, toWeigh / FINELY_FOLLOWED) / reachedChance;
  const followed = (leastChance: number) => (chosen: ChosenAction) => {
    return { ...chosen, minutes: minutesAfter(prepared, chosen.taken, leastChance) };
  };
  const finalists = [...candidates.values()]
    .map(followed(Math.min(LEAST_ROUGH_CHANCE, ROUGH_CHANCE * coarseness)))
    .sort((a, b) => a.minutes - b.minutes)
    .slice(0, FINALISTS)
    .map(followed(Math.min(LEAST_FINE_CHANCE, FINE_CHANCE * coarseness)));
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
