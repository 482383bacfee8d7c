import jstat from 'jstat';

/** A component or a site: its record, and the rate of what it is one of. */
export interface RateGroup {
  /** Years, or metre-years for cable. */
  exposure: number;
  /** May be fractional: uncertain findings are split. */
  events: number;
  /** Above 0, per unit of exposure. */
  parentRate: number;
}

/** So many of which there is the same to say. */
export interface AlikeGroups extends RateGroup {
  count: number;
}

/** From groups that differ fourfold to groups that hardly differ. */
const SHAPES: readonly number[] = Array.from({ length: 17 }, (_, i) => 0.25 * 2 ** (i / 2));

/**
 * Rates shrunk towards the rate of what each group is one of. Given a shape k, a group's rate is
 * gamma around its parent's rate m, and after n events in E it is (k + n)/(k/m + E). How strongly
 * to shrink is learned from all groups together: each k of a grid, evenly spread in its logarithm,
 * counts by the chance that it gives to all records (a negative binomial for each).
 */
export function shrunkRates(groups: readonly RateGroup[]): number[] {
  const shares = shapeShares(groups.map((group) => ({ ...group, count: 1 })));
  return groups.map((group) => shrunkRate(shares, group));
}

/** By which share each shape of the grid counts, after the records of all groups; they sum to 1. */
export function shapeShares(groups: readonly AlikeGroups[]): number[] {
  const logWeights = SHAPES.map((shape) =>
    groups.reduce((sum, group) => sum + group.count * logMarginal(shape, group), 0),
  );
  const largest = Math.max(...logWeights);
  const weights = logWeights.map((log) => Math.exp(log - largest));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight / total);
}

/** The rate of one group by the shares of the shapes. */
export function shrunkRate(
  shares: readonly number[],
  { exposure, events, parentRate }: RateGroup,
): number {
  return SHAPES.reduce(
    (rate, shape, i) =>
      rate + ((shares[i] ?? 0) * (shape + events)) / (shape / parentRate + exposure),
    0,
  );
}

/** Without the factors that all shapes share. */
function logMarginal(shape: number, { exposure, events, parentRate }: RateGroup): number {
  const scale = shape / parentRate;
  const rising = events === 0 ? 0 : jstat.gammaln(shape + events) - jstat.gammaln(shape);
  return rising + shape * Math.log(scale) - (shape + events) * Math.log(scale + exposure);
}
