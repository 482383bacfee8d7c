/** Failures that cost nothing, what the first delay is, and the longest: nobody is shut out for ever. */
export interface DelayRule {
  free: number;
  firstSeconds: number;
  longestSeconds: number;
}

/** From one address with one e-mail: guessing there soon takes a quarter of an hour a try. */
export const SAME_ADDRESS: DelayRule = { free: 3, firstSeconds: 2, longestSeconds: 900 };

/** From any address: slows down many who guess together, and hardly whoever the e-mail is of. */
export const ANY_ADDRESS: DelayRule = { free: 10, firstSeconds: 1, longestSeconds: 30 };

/** Seconds to wait before the next try, doubling with each failure after the free ones. */
export function waitSeconds(
  { free, firstSeconds, longestSeconds }: DelayRule,
  failures: number,
  lastAt: Date,
  now: Date,
): number {
  if (failures < free) return 0;
  const delay = Math.min(firstSeconds * 2 ** (failures - free), longestSeconds);
  return Math.max(0, Math.ceil((lastAt.getTime() - now.getTime()) / 1000 + delay));
}
