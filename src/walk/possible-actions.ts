/* eslint-disable @typescript-eslint/no-non-null-assertion -- the walk's innermost loops, over tables of the prepared walk:
   every index is in range by construction */
import { log2 } from '../elementary/ln.js';
import { actionBits, checkBits } from './action-bits.js';
import { knownOf, PreparedWalk, WalkState } from './prepared-walk.js';
import { suspectsOf } from './suspects.js';
import { WalkAction } from './walk-problem.js';
import type { WalkSuspects } from './walk-tables.js';

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

function weighAll(prepared: PreparedWalk, state: WalkState): WeighedAction[] {
  const { walkMinutes, spots, problem } = prepared;
  const { checks } = problem;
  const best: WeighedAction[] = [];
  for (const opening of weighOpenings(prepared, state))
    if (opening.rate > leastRate(best)) insert(best, opening);
  const mostBits = entropyBits(state) + ROUNDING_BITS;
  for (let check = 0; check < checks.length; check++) {
    const { spot, minutes: own } = checks[check]!;
    const minutes = walkMinutes[state.spot * spots + spot]! + own;
    if (per(mostBits, minutes) <= leastRate(best) || state.used.includes(check)) continue;
    const bits = checkBits(prepared, state, check);
    const rate = per(bits, minutes);
    if (bits <= NO_NEWS_BITS || rate <= leastRate(best)) continue;
    insert(best, { action: { kind: 'check', check }, minutes, bits, rate });
  }
  return best;
}

/**
 * Bits per minute of the most telling action; where none reaches `enough`, 0. A check is only weighed if telling all that it
 * can would make it the first.
 * @param unknownBits the state's entropy
 */
export function bestRate(
  prepared: PreparedWalk,
  state: WalkState,
  enough: number,
  unknownBits: number,
): number {
  if (!(enough >= 0 && enough < Infinity)) return 0;
  const floor = enough * (1 - ROUNDING_BITS);
  let best = floor;
  for (const { rate } of weighOpenings(prepared, state)) best = Math.max(best, rate);
  const mostBits = unknownBits + ROUNDING_BITS;
  for (const { check, minutes, mostRate } of checksFrom(prepared, state.spot)) {
    if (mostRate <= best) break;
    if (per(mostBits, minutes) <= best || state.used.includes(check)) continue;
    const bits = checkBits(prepared, state, check);
    if (bits > NO_NEWS_BITS) best = Math.max(best, per(bits, minutes));
  }
  return best > floor ? best : 0;
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
  const { walkMinutes, spots, problem } = prepared;
  prepared.checksFrom[from] ??= problem.checks
    .map(({ spot, minutes: own, outcomes }, check) => {
      const minutes = walkMinutes[from * spots + spot]! + own;
      const mostRate = per(log2(outcomes.length) + ROUNDING_BITS, minutes);
      return { check, minutes, mostRate };
    })
    .sort((a, b) => b.mostRate - a.mostRate);
  return prepared.checksFrom[from];
}

/** No check tells more than all that is not known. */
export function entropyBits({ chances }: WalkState): number {
  let bits = 0;
  for (let i = 0; i < chances.length; i++) bits -= chances[i]! * log2(chances[i]!);
  return bits;
}

/** A place to open, with its chance for each minute of it. */
interface Opening {
  action: WalkAction;
  minutes: number;
  chancePerMinute: number;
}

/** Of opening the places that are worth it, by ascending number. */
function weighOpenings(prepared: PreparedWalk, state: WalkState): WeighedAction[] {
  const row = state.spot * prepared.spots;
  const suspects = suspectsOf(prepared, state);
  const openings: Opening[] = [];
  for (let i = 0; i < suspects.count; i++) {
    if (hasOneBefore(prepared, suspects, i)) continue;
    const place = suspects.place[i]!;
    const minutes = prepared.walkMinutes[row + suspects.spot[i]!]! + suspects.minutes[i]!;
    const action: WalkAction = { kind: suspects.isOpened[i] ? 'remake' : 'open', place };
    openings.push({ action, minutes, chancePerMinute: per(suspects.chance[i]!, minutes) });
  }
  return mostPerMinute(openings).map(({ action, minutes }) => {
    const bits = actionBits(prepared, state, action);
    return { action, minutes, bits, rate: per(bits, minutes) };
  });
}

/** As they came. */
function mostPerMinute(openings: Opening[]): Opening[] {
  if (openings.length <= MOST_OPENINGS) return openings;
  const sorted = [...openings].sort((a, b) => b.chancePerMinute - a.chancePerMinute);
  const chosen = new Set(sorted.slice(0, MOST_OPENINGS));
  return openings.filter((opening) => chosen.has(opening));
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

/** Whether a likelier one at the same spot goes before: it takes no longer, and shows as much. */
function hasOneBefore({ problem }: PreparedWalk, suspects: WalkSuspects, one: number): boolean {
  const { count, place, spot, chance, minutes } = suspects;
  const shown = problem.places[place[one]!]!.check;
  for (let other = 0; other < count; other++) {
    if (spot[other] !== spot[one] || chance[other]! <= chance[one]!) continue;
    if (minutes[other]! > minutes[one]!) continue;
    if (shown === undefined || problem.places[place[other]!]!.check === shown) return true;
  }
  return false;
}

function per(value: number, minutes: number): number {
  return value / Math.max(minutes, LEAST_MINUTES);
}
