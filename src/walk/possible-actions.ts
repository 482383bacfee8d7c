import { actionBits } from './action-bits.js';
import { PreparedWalk, WalkState } from './prepared-walk.js';
import { suspectsOf } from './suspects.js';
import { WalkAction } from './walk-problem.js';

/** An action with what it tells for the minutes of walking there and doing it. */
export interface WeighedAction {
  action: WalkAction;
  minutes: number;
  bits: number;
}

/** So many places are opened at most, by chance per minute: a check tells more than a rare place. */
const MOST_OPENINGS = 12;
const NO_NEWS_BITS = 1e-12;
/** An action that costs nothing is worth doing for any news. */
const LEAST_MINUTES = 1e-9;

/**
 * Opening the suspect places that are worth it and every check that can tell something, most bits
 * per minute first; ties with openings first, then by index.
 */
export function possibleActions(prepared: PreparedWalk, state: WalkState): WeighedAction[] {
  const { checks, walkMinutes } = prepared.problem;
  const walked = (to: number) => walkMinutes[state.spot]?.[to] ?? 0;
  const weigh = (action: WalkAction, minutes: number): WeighedAction => {
    return { action, minutes, bits: actionBits(prepared, state, action) };
  };
  const opens = suspectsOf(prepared, state)
    .map((suspect) => ({ ...suspect, minutes: walked(suspect.spot) + suspect.openMinutes }))
    .sort((a, b) => per(b.chance, b.minutes) - per(a.chance, a.minutes))
    .slice(0, MOST_OPENINGS)
    .sort((a, b) => a.place - b.place)
    .map(({ place, minutes }) => weigh({ kind: 'open', place }, minutes));
  const telling = checks.flatMap(({ spot, minutes }, check): WeighedAction[] => {
    if (state.used.includes(check)) return [];
    const weighed = weigh({ kind: 'check', check }, walked(spot) + minutes);
    return weighed.bits > NO_NEWS_BITS ? [weighed] : [];
  });
  return [...opens, ...telling].sort((a, b) => per(b.bits, b.minutes) - per(a.bits, a.minutes));
}

function per(value: number, minutes: number): number {
  return value / Math.max(minutes, LEAST_MINUTES);
}
