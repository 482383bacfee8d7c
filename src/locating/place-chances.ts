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
  probability: number;
  intermittent: boolean;
  /** The chance that each component is what is the matter. */
  components: { component: ComponentName; faulty: number }[];
}

/**
 * Everything that may be the matter, most probable first. What the locator says of faults that stay holds as far as
 * nothing comes and goes.
 */
export function suspects(result: LocateResult, passing: Intermittent | null): Suspect[] {
  const nothing = passing?.nothing ?? 1;
  const staying = result.places.map((chance) => stays(chance, nothing));
  const coming = (passing?.spans ?? []).map(({ place, probability, components }) => ({
    place,
    probability,
    intermittent: true,
    components: components.map((one) => ({ component: one.component, faulty: one.probability })),
  }));
  const parts = (passing?.parts ?? []).map(({ place, probability }): Suspect => ({
    place,
    probability,
    intermittent: true,
    components: [{ component: place.kind, faulty: probability }],
  }));
  return likeliestFirst([...staying, ...coming, ...parts]);
}

function stays({ place, probability, components }: PlaceChance, nothing: number): Suspect {
  return {
    place,
    probability: probability * nothing,
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

/** Each place once, whether it stays or comes and goes, most probable first. */
export function predictedPlaces(list: readonly Suspect[]): PredictedPlace[] {
  const places = new Map<string, PredictedPlace>();
  for (const { place, probability } of list) {
    const key = JSON.stringify(placeParts(place));
    const known = places.get(key);
    places.set(key, { place, probability: probability + (known?.probability ?? 0) });
  }
  return likeliestFirst([...places.values()]);
}

/** Chances nearer than this are equal, and keep the locator's order: rounding must not change an answer. */
const RESOLUTION = 1e12;

function likeliestFirst<T extends { probability: number }>(list: readonly T[]): T[] {
  const size = ({ probability }: T) => Math.round(probability * RESOLUTION);
  return [...list].sort((a, b) => size(b) - size(a));
}
