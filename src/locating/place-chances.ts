import type {
  Intermittent,
  ComponentName,
  LocateResult,
  Place,
  PlaceChance,
} from '../locator/index.js';
import { placeParts } from '../history/work-done.js';

/** One thing that may be the matter: a place with something broken, or with something that comes and goes. */
export interface Suspect {
  place: Place;
  /** That something of it is faulty. */
  probability: number;
  /**
   * The chance that it is the cause of what was reported, of a point the largest. Where nothing was
   * reported not to work, that it is faulty.
   */
  accounts: number;
  intermittent: boolean;
  /** The chance that each component is what is the matter. */
  components: { component: ComponentName; faulty: number }[];
}

/**
 * Everything that may be the matter, by what it accounts for, then most probable first. What the locator says of faults
 * that stay holds as far as nothing comes and goes.
 */
export function suspects(result: LocateResult, passing: Intermittent | null): Suspect[] {
  const nothing = passing?.nothing ?? 1;
  const staying = result.places.map((chance) =>
    stays(
      result.troubles.length > 0 ? chance : { ...chance, accounts: chance.probability },
      nothing,
    ),
  );
  const coming = (passing?.spans ?? []).map(({ place, probability, components }) => ({
    place,
    probability,
    accounts: probability,
    intermittent: true,
    components: components.map((one) => ({ component: one.component, faulty: one.probability })),
  }));
  const parts = (passing?.parts ?? []).map(({ place, probability }): Suspect => ({
    place,
    probability,
    accounts: probability,
    intermittent: true,
    components: [{ component: place.kind, faulty: probability }],
  }));
  const byProbability = largestFirst([...staying, ...coming, ...parts], (one) => one.probability);
  return largestFirst(byProbability, (one) => one.accounts);
}

function stays(
  { place, probability, accounts, components }: PlaceChance,
  nothing: number,
): Suspect {
  return {
    place,
    probability: probability * nothing,
    accounts: accounts * nothing,
    intermittent: false,
    components: components.map(({ component, modes }) => ({
      component,
      faulty:
        nothing *
        Object.entries(modes).reduce(
          (sum, [mode, chance]) => (mode === 'ok' ? sum : sum + chance),
          0,
        ),
    })),
  };
}

/** A place with the chance that what is the matter is there. */
export interface PredictedPlace {
  place: Place;
  probability: number;
}

/** Each place once, whether it stays or comes and goes, by what it accounts for. */
export function predictedPlaces(list: readonly Suspect[]): PredictedPlace[] {
  const places = new Map<string, PredictedPlace>();
  for (const { place, accounts } of list) {
    const key = JSON.stringify(placeParts(place));
    const known = places.get(key);
    places.set(key, { place, probability: accounts + (known?.probability ?? 0) });
  }
  return largestFirst([...places.values()], ({ probability }) => probability);
}

/** Chances nearer than this are equal, and keep the locator's order: rounding must not change an answer. */
const RESOLUTION = 1e12;

function largestFirst<T>(list: readonly T[], chanceOf: (one: T) => number): T[] {
  const size = (one: T) => Math.round(chanceOf(one) * RESOLUTION);
  return [...list].sort((a, b) => size(b) - size(a));
}
