import { PathCheck, PathPlace, PathProblem } from './path-optimum.js';
import { PreparedWalk } from './prepared-walk.js';

/** By place: the certain outcome of a check if the fault is there; undefined: it cannot be there. */
type CertainOutcomes = readonly (number | undefined)[];

/**
 * The problem as one fault on an unbranched stretch, places in their order, if it is one: every
 * world has one fault, every check splits the places into those up to some place and those beyond,
 * without error, and opening any suspect place tells the side. Else null. Numbers are kept.
 */
export function asPath(prepared: PreparedWalk): PathProblem | null {
  const { problem, start, sets, missed } = prepared;
  if (missed.some((chance) => chance > 0)) return null;
  if (problem.places.some(({ falseChance = 0 }) => falseChance > 0)) return null;
  if (start.opened.length > 0) return null;
  const chances = new Array<number>(problem.places.length).fill(0);
  for (const [i, set] of start.sets.entries()) {
    const [place, ...more] = sets[set] ?? [];
    if (place === undefined || more.length > 0) return null;
    chances[place] = (chances[place] ?? 0) + (start.chances[i] ?? 0);
  }
  const outcomes: CertainOutcomes[] = [];
  const checks: PathCheck[] = [];
  for (const [i, { spot, minutes }] of problem.checks.entries()) {
    const certain = certainOutcomes(prepared, i);
    const upTo = certain && splitsUpTo(certain);
    if (certain === null || upTo === null) return null;
    outcomes.push(certain);
    checks.push({ spot, minutes, upTo });
  }
  const places = problem.places.map((place, i): PathPlace => {
    const { spot, openMinutes, mendMinutes, check } = place;
    const tellsSide = isSideTold(outcomes[check ?? -1] ?? [], chances, i);
    return { spot, openMinutes, mendMinutes, chance: chances[i] ?? 0, tellsSide };
  });
  if (places.some(({ chance, tellsSide }) => chance > 0 && !tellsSide)) return null;
  return { walkMinutes: problem.walkMinutes, startSpot: problem.startSpot, places, checks };
}

const NO_VALUES = new Float64Array(0);

/** Null if the check can err, or tells in which way a place is at fault. */
function certainOutcomes({ sets, chances, start }: PreparedWalk, check: number) {
  const byPlace: (number | undefined)[] = [];
  for (const set of start.sets) {
    const { outcomes: width = 0, values = NO_VALUES } = chances[check] ?? {};
    const outcome = values.slice(set * width, (set + 1) * width).indexOf(1);
    const place = sets[set]?.[0] ?? -1;
    if (outcome < 0 || (byPlace[place] ?? outcome) !== outcome) return null;
    byPlace[place] = outcome;
  }
  return byPlace;
}

/** The last place before the outcome changes for good; null if it changes back. */
function splitsUpTo(outcomes: CertainOutcomes): number | null {
  let upTo = outcomes.length - 1;
  let changes = 0;
  let before: number | undefined;
  for (const [place, outcome] of outcomes.entries()) {
    if (outcome === undefined) continue;
    if (before !== undefined && outcome !== before) {
      changes++;
      upTo = place - 1;
    }
    before = outcome;
  }
  return changes <= 1 ? upTo : null;
}

/** What is seen once the place is open differs between suspects before it and beyond it. */
function isSideTold(outcomes: CertainOutcomes, chances: readonly number[], place: number): boolean {
  const seen = (from: number, to: number) =>
    new Set(
      chances.slice(from, to).flatMap((chance, i) => (chance > 0 ? [outcomes[from + i]] : [])),
    );
  const [before, beyond] = [seen(0, place), seen(place + 1, chances.length)];
  if (before.size === 0 || beyond.size === 0) return true;
  return before.size === 1 && beyond.size === 1 && [...before][0] !== [...beyond][0];
}
