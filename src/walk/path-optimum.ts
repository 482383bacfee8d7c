import { WalkAction } from './walk-problem.js';

/** One fault somewhere on an unbranched stretch, and checks that never err. */
export interface PathProblem {
  walkMinutes: readonly (readonly number[])[];
  startSpot: number;
  /** In the order of the cable. */
  places: readonly PathPlace[];
  checks: readonly PathCheck[];
}

export interface PathPlace {
  spot: number;
  openMinutes: number;
  mendMinutes: number;
  /** Chance that the one fault is here. */
  chance: number;
  /** Once it is open and sound, it is plain on which side the fault is. */
  tellsSide: boolean;
}

export interface PathCheck {
  spot: number;
  minutes: number;
  /** Tells whether the fault is in places 0 to `upTo` or beyond. */
  upTo: number;
}

export interface PathOptimum {
  /** Expected from the start until mended. */
  minutes: number;
  /**
   * The best action when the fault is in places `low` to `high` and one stands at `spot`, and the
   * expected minutes from there; null and 0 where no fault can be in them.
   */
  from: (low: number, high: number, spot: number) => { action: WalkAction | null; minutes: number };
}

interface Decision {
  /** Expected minutes times the chance that the fault is in the interval. */
  weighted: number;
  action: WalkAction | null;
}

/**
 * The exact optimum by dynamic programming over (interval that holds the fault, spot): a check
 * cuts the interval in two, an opening finds the fault or, if it tells the side, leaves the part
 * on that side. A place that does not tell the side is only opened when it is the last one left.
 * Time grows with the cube of the places times the spots.
 */
export function pathOptimum(path: PathProblem): PathOptimum {
  const { places, walkMinutes } = path;
  const chanceUpTo = [0];
  for (const { chance } of places) chanceUpTo.push((chanceUpTo.at(-1) ?? 0) + chance);
  const massOf = (low: number, high: number) =>
    (chanceUpTo[high + 1] ?? 0) - (chanceUpTo[low] ?? 0);
  const known = new Map<number, Decision>();

  const decide = (low: number, high: number, spot: number): Decision => {
    const mass = massOf(low, high);
    if (low > high || mass <= 0) return { weighted: 0, action: null };
    const key = (low * places.length + high) * walkMinutes.length + spot;
    const before = known.get(key);
    if (before !== undefined) return before;
    const walked = (to: number) => walkMinutes[spot]?.[to] ?? 0;
    let best: Decision = { weighted: Infinity, action: null };
    const consider = (weighted: number, action: WalkAction) => {
      if (weighted < best.weighted) best = { weighted, action };
    };
    for (let i = low; i <= high; i++) {
      const place = places[i];
      if (place === undefined || (!place.tellsSide && low < high)) continue;
      const paid =
        mass * (walked(place.spot) + place.openMinutes) + place.chance * place.mendMinutes;
      const sides =
        decide(low, i - 1, place.spot).weighted + decide(i + 1, high, place.spot).weighted;
      consider(paid + sides, { kind: 'open', place: i });
    }
    path.checks.forEach(({ spot: at, minutes, upTo }, check) => {
      if (upTo < low || upTo >= high) return;
      const sides = decide(low, upTo, at).weighted + decide(upTo + 1, high, at).weighted;
      consider(mass * (walked(at) + minutes) + sides, { kind: 'check', check });
    });
    known.set(key, best);
    return best;
  };

  const from = (low: number, high: number, spot: number) => {
    const { weighted, action } = decide(low, high, spot);
    return { action, minutes: action === null ? 0 : weighted / massOf(low, high) };
  };
  return { minutes: from(0, places.length - 1, path.startSpot).minutes, from };
}
