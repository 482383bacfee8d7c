import { actionBits } from './action-bits.js';
import { knownOf, PreparedWalk, WalkState } from './prepared-walk.js';
import { suspectsOf, WalkSuspect } from './suspects.js';
import { WalkAction } from './walk-problem.js';

/** An action with what it tells for the minutes of walking there and doing it. */
export interface WeighedAction {
  action: WalkAction;
  minutes: number;
  bits: number;
  /** Bits per minute. */
  rate: number;
}

/** So many places are opened at most, by chance per minute: a check tells more than a rare place. */
const MOST_OPENINGS = 12;
const NO_NEWS_BITS = 1e-12;
/** So many of the most telling are kept: nobody asks for more. */
export const MOST_TELLING = 10;
/** An action that costs nothing is worth doing for any news. */
const LEAST_MINUTES = 1e-9;

/**
 * The most telling of opening the suspect places that are worth it and of all checks, most bits
 * per minute first; ties with openings first, then by index. Of places at one spot none is opened
 * before a likelier one that takes no longer: what lies at the same spot goes by chance per minute.
 */
export function possibleActions(prepared: PreparedWalk, state: WalkState): WeighedAction[] {
  const known = knownOf(prepared, state);
  known.possible ??= weighAll(prepared, state);
  return known.possible;
}

function weighAll(prepared: PreparedWalk, state: WalkState): WeighedAction[] {
  const { checks, walkMinutes } = prepared.problem;
  const walked = (to: number) => walkMinutes[state.spot]?.[to] ?? 0;
  const best: WeighedAction[] = [];
  const weigh = (action: WalkAction, minutes: number, leastBits: number) => {
    const bits = actionBits(prepared, state, action);
    const rate = per(bits, minutes);
    if (bits <= leastBits || rate <= leastRate(best)) return;
    let at = best.length;
    while (at > 0 && (best[at - 1]?.rate ?? 0) < rate) at--;
    best.splice(at, 0, { action, minutes, bits, rate });
    if (best.length > MOST_TELLING) best.pop();
  };
  const opened = firstAtTheirSpots(prepared, suspectsOf(prepared, state))
    .map((suspect) => ({ ...suspect, minutes: walked(suspect.spot) + suspect.minutes }))
    .sort((a, b) => per(b.chance, b.minutes) - per(a.chance, a.minutes))
    .slice(0, MOST_OPENINGS)
    .sort((a, b) => a.place - b.place);
  for (const { place, isOpened, minutes } of opened)
    weigh({ kind: isOpened ? 'remake' : 'open', place }, minutes, -1);
  for (const [check, { spot, minutes }] of checks.entries()) {
    if (state.used.includes(check)) continue;
    weigh({ kind: 'check', check }, walked(spot) + minutes, NO_NEWS_BITS);
  }
  return best;
}

/** What an action must tell in a minute to be among the best. */
function leastRate(best: readonly WeighedAction[]): number {
  return best.length < MOST_TELLING ? -1 : (best.at(-1)?.rate ?? -1);
}

/** Without those that a likelier one at the same spot goes before: it takes no longer, and shows as much. */
function firstAtTheirSpots(
  { problem }: PreparedWalk,
  suspects: readonly WalkSuspect[],
): WalkSuspect[] {
  const shows = ({ place }: WalkSuspect) => problem.places[place]?.check;
  const goesBefore = (other: WalkSuspect, one: WalkSuspect) =>
    other.spot === one.spot &&
    other.chance > one.chance &&
    other.minutes <= one.minutes &&
    (shows(one) === undefined || shows(other) === shows(one));
  return suspects.filter((one) => !suspects.some((other) => goesBefore(other, one)));
}

function per(value: number, minutes: number): number {
  return value / Math.max(minutes, LEAST_MINUTES);
}
