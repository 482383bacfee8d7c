import { baseMinutes } from './base-minutes.js';
import { baseAction, ChosenAction, Preference } from './base-policy.js';
import { followed } from './followed.js';
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
  const rough = Math.min(LEAST_ROUGH_CHANCE, ROUGH_CHANCE * coarseness);
  const fine = Math.min(leastFine(reachedChance), FINE_CHANCE * coarseness);
  const finalists: RolledOut[] = [];
  for (const chosen of candidates.values()) {
    const most = finalists[FINALISTS - 1]?.minutes ?? Infinity;
    const minutes = minutesAfter(prepared, chosen.taken, rough, most);
    if (minutes >= most) continue;
    const at = finalists.findIndex((other) => other.minutes > minutes);
    finalists.splice(at < 0 ? finalists.length : at, 0, { ...chosen, minutes });
    finalists.splice(FINALISTS);
  }
  const best = finalists.reduce<RolledOut | null>((known, one) => {
    const most = known === null ? Infinity : known.minutes - 1e-9;
    const minutes = minutesAfter(prepared, one.taken, fine, most);
    return minutes < most ? { ...one, minutes } : known;
  }, null);
  if (best === null) throw new RangeError('a state in which nothing can be done');
  return best;
}

/** The next step is followed most finely; what is planned for later, as roughly as it is seldom reached. */
function leastFine(reachedChance: number): number {
  return Math.min(LEAST_ROUGH_CHANCE, LEAST_FINE_CHANCE / reachedChance);
}

/** From `most` on, something that is no less. */
function minutesAfter(
  prepared: PreparedWalk,
  taken: TakenAction,
  leastChance: number,
  most: number,
): number {
  return followed(prepared, taken, most, (state, probability, mostThere) =>
    PREFERENCES.reduce((least, preference) => {
      const how = { preference, leastChance: leastChance / probability };
      return Math.min(least, baseMinutes(prepared, state, how, Math.min(least, mostThere)));
    }, Infinity),
  );
}
