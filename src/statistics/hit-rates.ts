import { StatisticsError } from './statistics-error.js';

export interface HitRates {
  cases: number;
  /** The place found was named first; was among the first three. */
  first: number;
  firstThree: number;
  /** The same as shares; null without cases. */
  firstShare: number | null;
  firstThreeShare: number | null;
}

/**
 * How often the place found was named when somebody was sent. `ranks`: for each closed case, the
 * place's rank in the answer kept with the ticket, 1 for the first; null if it was not named.
 */
export function hitRates(ranks: readonly (number | null)[]): HitRates {
  ranks.forEach((rank, i) => {
    if (rank !== null && !(Number.isInteger(rank) && rank >= 1)) {
      throw new StatisticsError(`ranks/${i}`, `must be a whole number of at least 1, is ${rank}`);
    }
  });
  const within = (most: number) => ranks.filter((rank) => rank !== null && rank <= most).length;
  const share = (hits: number) => (ranks.length === 0 ? null : hits / ranks.length);
  const [first, firstThree] = [within(1), within(3)];
  return {
    cases: ranks.length,
    first,
    firstThree,
    firstShare: share(first),
    firstThreeShare: share(firstThree),
  };
}
