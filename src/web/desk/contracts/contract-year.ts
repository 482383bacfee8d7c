import type { ReadContractAccount, ReadContractVisits } from '../../parts/wire.js';

export type AccountYear = ReadContractAccount['years'][number];

/** The year that a day lies in; before the first one that, after the last one that. */
export function yearOn<Year extends { from: string; until: string }>(
  years: readonly Year[],
  day: string,
): Year | undefined {
  return years.find(({ until }) => day < until) ?? years.at(-1);
}

/** What a year cost; null where no price is known. */
export function costOf(year: AccountYear): number | null {
  return year.balanceMinor === null ? null : year.feeMinor - year.balanceMinor;
}

export function visitsDone({ standings }: ReadContractVisits['years'][number]): number {
  return standings.done + standings['done-late'];
}

/** Promises that were not kept, of those that are settled. */
export function breachesOf({ kept }: AccountYear): { broken: number; settled: number } {
  const broken = kept.reduce((sum, { breached }) => sum + breached, 0);
  return { broken, settled: kept.reduce((sum, { met }) => sum + met, broken) };
}
