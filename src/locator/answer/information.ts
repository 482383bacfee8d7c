import type { InformantErrors } from '../model/error-rates.js';

/**
 * I = H(outcome) - E[H(outcome | condition)] in bits (fault model, section 5), written as the mean of
 * log2(P(outcome | condition) / P(outcome)), which is the same and loses less when a check tells nearly nothing.
 * Chances of the conditions good, weak, dead.
 */
export function informationBits(
  good: number,
  weak: number,
  dead: number,
  errors: InformantErrors,
): number {
  let bits = 0;
  for (let outcome = 0; outcome < 3; outcome++) {
    const ifGood = errors.good[outcome] ?? 0;
    const ifWeak = errors.weak[outcome] ?? 0;
    const ifDead = errors.dead[outcome] ?? 0;
    const chance = good * ifGood + weak * ifWeak + dead * ifDead;
    bits += term(good, ifGood, chance) + term(weak, ifWeak, chance) + term(dead, ifDead, chance);
  }
  return Math.max(0, bits);
}

function term(condition: number, likelihood: number, chance: number): number {
  const mass = condition * likelihood;
  return mass > 0 ? mass * Math.log2(likelihood / chance) : 0;
}
