import { exp } from '../../elementary/exp.js';
import { ln } from '../../elementary/ln.js';
import { DEAD_FEED, type FeedClasses } from '../sweep/feed-classes.js';
import { WRONG_SHARE } from './loop-excess.js';

/** Standard uncertainty of the model's nominal volts, as a share of the source's; and of "nothing" where the feed is dead. */
const MODEL_SHARE = 0.02;
const DEAD_VOLTS = 0.1;

/** One supply voltage as it was read, and what the trunk as drawn leads to expect there. */
export interface VoltsRead {
  readonly volts: number;
  readonly uncertaintyVolts: number;
  readonly nominalVolts: number;
  readonly sourceVolts: number;
  /** What a meter can read is taken to end here. */
  readonly rangeVolts: number;
}

function normalDensity(x: number, mean: number, deviation: number): number {
  const z = (x - mean) / deviation;
  return exp(-0.5 * z * z) / (deviation * Math.sqrt(2 * Math.PI));
}

function logLikelihood(read: VoltsRead, feed: number, isWeak: boolean): number {
  const { volts, uncertaintyVolts, nominalVolts, sourceVolts, rangeVolts } = read;
  let density: number;
  if (feed === DEAD_FEED)
    density = normalDensity(
      volts,
      0,
      Math.sqrt(uncertaintyVolts * uncertaintyVolts + DEAD_VOLTS * DEAD_VOLTS),
    );
  else if (isWeak) density = volts <= nominalVolts ? 1 / nominalVolts : 0;
  else {
    const modelVolts = MODEL_SHARE * sourceVolts;
    const deviation = Math.sqrt(uncertaintyVolts * uncertaintyVolts + modelVolts * modelVolts);
    density = normalDensity(volts, nominalVolts, deviation);
  }
  return ln((1 - WRONG_SHARE) * density + WRONG_SHARE / rangeVolts);
}

/**
 * Natural logarithm of P(supply voltages read at one node | class of its feed): full is normal around nominal, weak
 * anywhere below it, dead normal around 0; each with a flat share for a wrong terminal or range. The head-end's mode does
 * not enter: a head-end without power has other evidence, and is not told from the feed here.
 */
export function voltsByFeed(
  { count, weak }: Pick<FeedClasses, 'count' | 'weak'>,
  reads: readonly VoltsRead[],
): Float64Array {
  return Float64Array.from({ length: count }, (_, feed) =>
    reads.reduce((sum, read) => sum + logLikelihood(read, feed, weak[feed] === 1), 0),
  );
}
