import { type Forecast, reliabilityCurve } from '#app/statistics/reliability-curve.js';
import type { Random } from './site.js';

export interface Reliability {
  /** Share of the forecasts at which the curve is inside its band. */
  inside: number;
  /** The same of forecasters whose chances are right: mean, and what nineteen of twenty reach. */
  honestMean: number;
  honestLeast: number;
}

const HONEST_FORECASTERS = 100;

/**
 * The band holds point by point, and neighbouring points leave it together; so what share of the curve may lie outside is
 * found by drawing the outcomes again from the stated chances.
 */
export function reliability(
  forecasts: readonly Forecast[],
  coverage: number,
  random: Random,
): Reliability {
  const joined = joinNeighbours(forecasts);
  const band = reliabilityCurve(joined, { random, resamples: 400, coverage });
  const inside = (observed: readonly number[]) =>
    band.reduce(
      (sum, { low, high, count }, i) =>
        observed[i]! >= low && observed[i]! <= high ? sum + count : sum,
      0,
    ) / joined.length;
  const shares = Array.from({ length: HONEST_FORECASTERS }, () => {
    const again = joined.map(({ stated }) => ({ stated, cameTrue: random() < stated }));
    const curve = reliabilityCurve(again, { random, resamples: 1, coverage });
    return inside(curve.map(({ observed }) => observed));
  }).sort((a, b) => a - b);
  return {
    inside: inside(band.map(({ observed }) => observed)),
    honestMean: shares.reduce((sum, one) => sum + one, 0) / shares.length,
    honestLeast: shares[HONEST_FORECASTERS / 20]!,
  };
}

/** Chances that agree to a tenth of a per cent are stated as their mean: the curve has fewer points to fit. */
function joinNeighbours(forecasts: readonly Forecast[]): Forecast[] {
  const groups = new Map<number, Forecast[]>();
  for (const one of forecasts) {
    const key = Math.floor(1000 * one.stated);
    const group = groups.get(key);
    if (group) group.push(one);
    else groups.set(key, [one]);
  }
  return [...groups.values()].flatMap((group) => {
    const stated = group.reduce((sum, one) => sum + one.stated, 0) / group.length;
    return group.map(({ cameTrue }) => ({ stated: Math.min(1, stated), cameTrue }));
  });
}
