import { log2 } from '../../elementary/ln.js';
import { type InformantErrors, OUTCOMES } from '../../plan/error-rates.js';

/**
 * I = H(outcome) - E[H(outcome | condition)] in bits (fault model, section 5), for chances of conditions and, by
 * condition, the chances of the outcomes. Written as the mean of log2(P(outcome | condition) / P(outcome)), which is the
 * same and loses less when a check tells nearly nothing.
 */
export function channelBits(
  chances: readonly number[],
  outcomes: readonly (readonly number[])[],
): number {
  const count = outcomes[0]?.length ?? 0;
  let bits = 0;
  for (let o = 0; o < count; o++) {
    let mean = 0;
    for (let c = 0; c < chances.length; c++) mean += (chances[c] ?? 0) * (outcomes[c]?.[o] ?? 0);
    for (let c = 0; c < chances.length; c++)
      bits += term(chances[c] ?? 0, outcomes[c]?.[o] ?? 0, mean);
  }
  return Math.max(0, bits);
}

/** The same, without lists, for what an informant would tell of a function that is good, weak or dead with these chances. */
export function informationBits(
  good: number,
  weak: number,
  dead: number,
  errors: InformantErrors,
): number {
  let bits = 0;
  for (let o = 0; o < OUTCOMES.length; o++) {
    const ifGood = errors.good[o] ?? 0;
    const ifWeak = errors.weak[o] ?? 0;
    const ifDead = errors.dead[o] ?? 0;
    const mean = good * ifGood + weak * ifWeak + dead * ifDead;
    bits += term(good, ifGood, mean);
    bits += term(weak, ifWeak, mean);
    bits += term(dead, ifDead, mean);
  }
  return Math.max(0, bits);
}

function term(condition: number, likelihood: number, chance: number): number {
  const mass = condition * likelihood;
  return mass > 0 ? mass * log2(likelihood / chance) : 0;
}
