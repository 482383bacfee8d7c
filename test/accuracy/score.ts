import type { PlaceChances, PlaceName } from './places.js';

/** A chance nearer to 0 or 1 than this is scored as this: no case costs more than 40 bits a place. */
const LEAST_CHANCE = 2 ** -40;

const bits = (chance: number) => -Math.log2(Math.max(LEAST_CHANCE, chance));

/** -log2 of what was stated of each place: faulty or not. Summed over the places. */
export function logScoreBits(
  chances: PlaceChances,
  truth: ReadonlySet<PlaceName>,
  places: Iterable<PlaceName>,
): number {
  let sum = 0;
  for (const place of places) {
    const faulty = chances.get(place) ?? 0;
    sum += bits(truth.has(place) ? faulty : 1 - faulty);
  }
  return sum;
}

/** What logScoreBits comes to on average if the chances are right: the sum of the places' entropies. */
export function expectedBits(chances: PlaceChances, places: Iterable<PlaceName>): number {
  let sum = 0;
  for (const place of places) {
    const faulty = chances.get(place) ?? 0;
    sum += faulty * bits(faulty) + (1 - faulty) * bits(1 - faulty);
  }
  return sum;
}

export interface Hits {
  first: boolean;
  firstThree: boolean;
}

/** A hit: something is truly faulty at the first place named; at one of the first three. */
export function hits(named: readonly PlaceName[], truth: ReadonlySet<PlaceName>): Hits {
  const three = named.slice(0, 3).map((place) => truth.has(place));
  return { first: three[0] ?? false, firstThree: three.includes(true) };
}

export interface Mean {
  mean: number;
  standardError: number;
}

export function meanOf(values: readonly number[]): Mean {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, standardError: Math.sqrt(squares / (values.length - 1) / values.length) };
}
