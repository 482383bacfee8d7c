/** Places less likely than this, given an explanation, are not named with it. */
export const LEAST_LIKELY = 0.001;

/**
 * Whether a place is worth naming with an explanation: likely enough, and with odds at least twice those before anything
 * was known. Faults that explain nothing are as likely anywhere as before.
 */
export function isRaised(probability: number, prior: number): boolean {
  return probability >= LEAST_LIKELY && probability * (1 - prior) >= 2 * prior * (1 - probability);
}
