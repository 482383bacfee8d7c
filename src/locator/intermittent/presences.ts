import { power } from '../../elementary/power.js';

/** Chance that something which comes and goes is there in a sitting, each by itself (fault model, section 7). */
export const PRESENT_IN_A_SITTING = 0.4;

/** In which sittings it was there, and the chance of that. */
export interface Presence {
  readonly sittings: ReadonlySet<number>;
  readonly chance: number;
}

/** Every way to be there in some of the sittings, or in none. 2 to the number of sittings. */
export function presences(sittings: readonly number[]): Presence[] {
  return Array.from({ length: 2 ** sittings.length }, (_, bits) => {
    const there = sittings.filter((_, i) => bits & (1 << i));
    const chance =
      power(PRESENT_IN_A_SITTING, there.length) *
      power(1 - PRESENT_IN_A_SITTING, sittings.length - there.length);
    return { sittings: new Set(there), chance };
  });
}
