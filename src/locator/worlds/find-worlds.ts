/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { candidates } from './candidates.js';
import { faultSpot, type NamedFault } from './named-fault.js';
import { logWeight, type WorldSite } from './weigh-site.js';

/** Some faults, as positions in the list of candidates, ascending, and their weight. */
interface Found {
  readonly at: readonly number[];
  readonly log: number;
}

/** So many of the heaviest single faults are paired with others, and of the heaviest pairs made triples. */
const PAIRED = 24;
const TRIPLED = 8;
/** So many of the heaviest single faults are what others are paired with. */
const PARTNERS = 100;

function heaviest(found: readonly Found[], count: number): Found[] {
  return [...found].sort((a, b) => b.log - a.log).slice(0, count);
}

function joined(
  world: WorldSite,
  faults: readonly NamedFault[],
  seeds: readonly Found[],
  partners: readonly Found[],
): Found[] {
  const found = new Map<number, Found>();
  const spotsOf = (at: readonly number[]) => at.map((k) => faultSpot(faults[k]!));
  const added = partners.flatMap(({ at }) => at);
  const addedSpots = spotsOf(added);
  for (const seed of seeds) {
    const spots = spotsOf(seed.at);
    for (const [p, one] of added.entries()) {
      if (spots.includes(addedSpots[p]!)) continue;
      const at = [...seed.at, one].sort((a, b) => a - b);
      // Three at most, of some thousands: it stays a whole number.
      const key = at.reduce((number, k) => number * faults.length + k, 0);
      if (found.has(key)) continue;
      const log = logWeight(
        world,
        at.map((k) => faults[k]!),
      );
      if (log > -Infinity) found.set(key, { at, log });
    }
  }
  return [...found.values()];
}

/**
 * The heaviest sets of faults: none, every single one, the heaviest singles paired with others, and the heaviest pairs
 * with a third. Spans' faults are of no component in particular.
 */
export function findWorlds(world: WorldSite, count: number): NamedFault[][] {
  const faults = candidates(world);
  const none: Found = { at: [], log: logWeight(world, []) };
  const singles = faults.flatMap((fault, k): Found[] => {
    const log = logWeight(world, [fault]);
    return log > -Infinity ? [{ at: [k], log }] : [];
  });
  const partners = heaviest(singles, PARTNERS);
  const pairs = joined(world, faults, heaviest(singles, PAIRED), partners);
  const triples = joined(world, faults, heaviest(pairs, TRIPLED), partners);
  return heaviest([none, ...singles, ...pairs, ...triples], count).map(({ at }) =>
    at.map((k) => faults[k]!),
  );
}
