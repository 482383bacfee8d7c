import { exp } from '../../elementary/exp.js';
import { ln } from '../../elementary/ln.js';
import { meanDensity } from './mean-density.js';

/** One loop resistance as it was read. */
export interface LoopRead {
  readonly ohms: number;
  readonly uncertaintyOhms: number;
}

/** Chance of a wrong terminal or range, for every reading. */
export const WRONG_SHARE = 0.01;

/**
 * What readings of one loop say about a short, over what they say of none. A reading R with uncertainty s is
 *
 *     L = 0.99 Normal(R; r, s) + 0.01 / range
 *
 * where the nearest visible short has r ohms of loop before it, and 0.01 / range where there is none. So the flat shares
 * of all are a factor of everything (`logFlat`), and over it a short from `low` to `high` ohms, equally likely anywhere
 * between, has 1 + the excess given here: a sum over which of the readings are right, each term the mean of a product of
 * normal densities, which is a normal density again. All terms are positive.
 */
export function loopExcess(
  reads: readonly LoopRead[],
  rangeOhms: number,
): (low: number, high: number) => number {
  const odds = ((1 - WRONG_SHARE) / WRONG_SHARE) * rangeOhms;
  const terms = Array.from({ length: 2 ** reads.length - 1 }, (_, t) =>
    productOfNormals(
      reads.filter((_, i) => ((t + 1) >> i) & 1),
      odds,
    ),
  );
  return (low, high) =>
    terms.reduce((sum, { scale, mean, deviation }) => {
      const density = meanDensity((low - mean) / deviation, (high - mean) / deviation);
      return sum + scale * (density / deviation);
    }, 0);
}

/** Natural logarithm of the flat shares of so many readings. */
export function logFlat(readings: number, rangeOhms: number): number {
  return readings * ln(WRONG_SHARE / rangeOhms);
}

/** Π odds · Normal(R; r, s) as scale · Normal(r; mean, deviation). */
function productOfNormals(reads: readonly LoopRead[], odds: number) {
  const precision = reads.reduce((sum, { uncertaintyOhms: s }) => sum + 1 / (s * s), 0);
  const deviation = 1 / Math.sqrt(precision);
  const mean = reads.reduce(
    (sum, { ohms, uncertaintyOhms: s }) => sum + ohms / (s * s) / precision,
    0,
  );
  const rootTwoPi = Math.sqrt(2 * Math.PI);
  const logScale = reads.reduce(
    (sum, { ohms, uncertaintyOhms: s }) => {
      const z = (ohms - mean) / s;
      return sum + ln(odds / (s * rootTwoPi)) - (z * z) / 2;
    },
    ln(deviation * rootTwoPi),
  );
  return { scale: exp(logScale), mean, deviation };
}
