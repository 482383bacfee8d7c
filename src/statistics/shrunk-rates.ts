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

/** From groups that differ fourfold to groups that hardly differ. */
const SHAPES: readonly number[] = Array.from({ length: 17 }, (_, i) => 0.25 * 2 ** (i / 2));

/**
 * Rates shrunk towards the rate of what each group is one of. Given a shape k, a group's rate is
 * gamma around its parent's rate m, and after n events in E it is (k + n)/(k/m + E). How strongly
 * to shrink is learned from all groups together: each k of a grid, evenly spread in its logarithm,
 * counts by the chance that it gives to all records (a negative binomial for each).
 */
export function shrunkRates(groups: readonly RateGroup[]): number[] {
  const logWeights = SHAPES.map((shape) =>
    groups.reduce((sum, group) => sum + logMarginal(shape, group), 0),
  );
  const largest = Math.max(...logWeights);
  const weights = logWeights.map((log) => Math.exp(log - largest));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return groups.map(({ exposure, events, parentRate }) =>
    SHAPES.reduce((rate, shape, i) => {
      const share = (weights[i] ?? 0) / total;
      return rate + (share * (shape + events)) / (shape / parentRate + exposure);
    }, 0),
  );
}

/** Without the factors that all shapes share. */
function logMarginal(shape: number, { exposure, events, parentRate }: RateGroup): number {
  const scale = shape / parentRate;
  const rising = events === 0 ? 0 : jstat.gammaln(shape + events) - jstat.gammaln(shape);
  return rising + shape * Math.log(scale) - (shape + events) * Math.log(scale + exposure);
}
