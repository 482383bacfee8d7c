import { StatisticsError, requireWithin } from './statistics-error.js';

/**
 * Mean of -log2 of the probability that each case gave to what was found, in bits; 0 is perfect,
 * 1 is a coin. Null without cases. Throws {@link StatisticsError} for a probability of 0: such a case
 * cannot be averaged and says that the model left the finding out.
 */
export function logScoreBits(probabilitiesOfFound: readonly number[]): number | null {
  if (probabilitiesOfFound.length === 0) return null;
  const bits = probabilitiesOfFound.map((probability, i) => {
    if (probability === 0) throw new StatisticsError(`cases/${i}`, 'what was found had no chance');
    return -Math.log2(requireWithin(`cases/${i}`, probability, 0, 1));
  });
  return bits.reduce((sum, bit) => sum + bit, 0) / bits.length;
}
