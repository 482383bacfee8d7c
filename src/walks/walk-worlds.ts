import type { ProbableWorld, WorldFault } from '../locator/worlds/index.js';
import type { World } from '../walk/index.js';
import { type OpenedPlace, placeKey } from './walk-place.js';

/** So many are planned with: each costs time in every step of the plan. */
const MOST_SETS = 48;

/** What may be at fault, as the planner takes it, and back again. */
export interface WalkWorlds {
  worlds: World[];
  faultsOf: (faults: readonly number[], kinds: readonly number[]) => readonly WorldFault[];
  /** Share of what may be at fault that is not planned with. */
  leftOut: number;
}

/**
 * Worlds that open the same places and show the same at every check are one. `signOf`: what a fault alone shows at the
 * checks.
 */
export function walkWorlds(
  found: { worlds: readonly Pick<ProbableWorld, 'faults' | 'probability'>[] },
  places: readonly OpenedPlace[],
  signOf: (fault: WorldFault) => string,
): WalkWorlds {
  const placeAt = new Map(places.map(({ key }, i) => [key, i]));
  const signs = new Map<string, string>();
  const kindsOf = places.map(() => new Map<string, { kind: number; fault: WorldFault }>());
  const kindOf = (place: number, fault: WorldFault): number => {
    const known = kindsOf[place] ?? new Map<string, { kind: number; fault: WorldFault }>();
    const faultKey = JSON.stringify(fault);
    const sign = signs.get(faultKey) ?? signOf(fault);
    signs.set(faultKey, sign);
    const one = known.get(sign) ?? { kind: known.size, fault };
    known.set(sign, one);
    return one.kind;
  };
  const sets = new Map<string, { faults: number[]; kinds: number[]; probability: number }>();
  let total = 0;
  for (const { faults, probability } of found.worlds) {
    if (faults.length === 0) continue;
    const pairs = faults
      .map((fault) => ({ place: placeAt.get(placeKey(fault)) ?? -1, fault }))
      .sort((a, b) => a.place - b.place)
      .map(({ place, fault }) => ({ place, kind: kindOf(place, fault) }));
    total += probability;
    const key = JSON.stringify(pairs);
    const set = sets.get(key) ?? {
      faults: pairs.map(({ place }) => place),
      kinds: pairs.map(({ kind }) => kind),
      probability: 0,
    };
    sets.set(key, { ...set, probability: set.probability + probability });
  }
  const kept = [...sets.values()].sort((a, b) => b.probability - a.probability).slice(0, MOST_SETS);
  const sum = kept.reduce((all, { probability }) => all + probability, 0);
  const list = kindsOf.map((known) => [...known.values()].map(({ fault }) => fault));
  return {
    worlds: kept.map((set) => ({ ...set, probability: set.probability / sum })),
    faultsOf: (faults, kinds) => faults.flatMap((place, k) => list[place]?.[kinds[k] ?? 0] ?? []),
    leftOut: total > 0 ? 1 - sum / total : 0,
  };
}
