/* eslint-disable @typescript-eslint/no-non-null-assertion -- the walk's innermost loops, over tables of the prepared walk:
   every index is in range by construction */
import { actionBits, checkBits } from './action-bits.js';
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
/** Sums of bits are right to this. */
const ROUNDING_BITS = 1e-9;
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

/** Bits per minute of the most telling of them; 0 where nothing tells anything. */
export function bestRate(prepared: PreparedWalk, state: WalkState): number {
  const known = knownOf(prepared, state);
  known.bestRate ??= known.possible
    ? (known.possible[0]?.rate ?? 0)
    : findBestRate(prepared, state);
  return known.bestRate;
}

function weighAll(prepared: PreparedWalk, state: WalkState): WeighedAction[] {
  const { checks, walkMinutes } = prepared.problem;
  const walked = walkMinutes[state.spot] ?? [];
  const best: WeighedAction[] = [];
  for (const opening of weighOpenings(prepared, state))
    if (opening.rate > leastRate(best)) insert(best, opening);
  for (let check = 0; check < checks.length; check++) {
    if (state.used.includes(check)) continue;
    const { spot, minutes: own } = checks[check]!;
    const minutes = (walked[spot] ?? 0) + own;
    const bits = checkBits(prepared, state, check);
    const rate = per(bits, minutes);
    if (bits <= NO_NEWS_BITS || rate <= leastRate(best)) continue;
    insert(best, { action: { kind: 'check', check }, minutes, bits, rate });
  }
  return best;
}

/** The first of {@link weighAll}; a check is only weighed if telling all that it can would make it the first. */
function findBestRate(prepared: PreparedWalk, state: WalkState): number {
  let best = 0;
  for (const { rate } of weighOpenings(prepared, state)) best = Math.max(best, rate);
  for (const { check, minutes, mostRate } of checksFrom(prepared, state.spot)) {
    if (mostRate <= best) break;
    if (state.used.includes(check)) continue;
    const bits = checkBits(prepared, state, check);
    if (bits > NO_NEWS_BITS) best = Math.max(best, per(bits, minutes));
  }
  return best;
}

/** A check from where one stands. */
export interface CheckFrom {
  check: number;
  /** To walk there and make it. */
  minutes: number;
  /** Bits per minute, if no outcome of it were likelier than another. */
  mostRate: number;
}

/** Every check, those that could tell most first. */
function checksFrom(prepared: PreparedWalk, from: number): readonly CheckFrom[] {
  const { checks, walkMinutes } = prepared.problem;
  prepared.checksFrom[from] ??= checks
    .map(({ spot, minutes: own, outcomes }, check) => {
      const minutes = walkMinutes[from]![spot]! + own;
      const mostRate = per(Math.log2(outcomes.length) + ROUNDING_BITS, minutes);
      return { check, minutes, mostRate };
    })
    .sort((a, b) => b.mostRate - a.mostRate);
  return prepared.checksFrom[from];
}

/** Of opening the places that are worth it, by ascending number. */
function weighOpenings(prepared: PreparedWalk, state: WalkState): WeighedAction[] {
  const walked = prepared.problem.walkMinutes[state.spot] ?? [];
  return firstAtTheirSpots(prepared, suspectsOf(prepared, state))
    .map((suspect) => ({ ...suspect, minutes: (walked[suspect.spot] ?? 0) + suspect.minutes }))
    .sort((a, b) => per(b.chance, b.minutes) - per(a.chance, a.minutes))
    .slice(0, MOST_OPENINGS)
    .sort((a, b) => a.place - b.place)
    .map(({ place, isOpened, minutes }) => {
      const action: WalkAction = { kind: isOpened ? 'remake' : 'open', place };
      const bits = actionBits(prepared, state, action);
      return { action, minutes, bits, rate: per(bits, minutes) };
    });
}

/** Behind those that tell as much in a minute. */
function insert(best: WeighedAction[], one: WeighedAction): void {
  let at = best.length;
  while (at > 0 && best[at - 1]!.rate < one.rate) at--;
  best.splice(at, 0, one);
  if (best.length > MOST_TELLING) best.pop();
}

/** What an action must tell in a minute to be among the best. */
function leastRate(best: readonly WeighedAction[]): number {
  return best.length < MOST_TELLING ? -1 : best[best.length - 1]!.rate;
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
