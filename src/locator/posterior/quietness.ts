import { exp } from '../../elementary/exp.js';
import { ln } from '../../elementary/ln.js';
/**
 * Nobody complains of nothing, or hardly ever (fault model, section 4): the weight of quiet worlds is multiplied by κ. With A
 * the mass of the evidence and Q that of its quiet worlds, every answer is (A x - (1 - κ) Q x_Q) / (A - (1 - κ) Q).
 */
export interface Quietness {
  /** Natural logarithm of the evidence's mass after κ, over that before it. */
  readonly logFactor: number;
  /** P(all is well that was complained of | evidence). */
  readonly quiet: number;
  /** What is taken from the quiet worlds, over the mass of all before κ. */
  readonly taken: number;
  /** What makes shares of all worlds alike those after κ: times `weight`, less `quiet` for what is certain in quiet worlds. */
  readonly mixing: { readonly weight: number; readonly quiet: number };
  readonly mix: (all: number, quiet: number) => number;
  readonly mixAll: (all: Float64Array, quiet: Float64Array) => Float64Array;
}

/** @param logQuiet, logAll natural logarithms of Q and A */
export function quietness(logQuiet: number, logAll: number, falseAlarmRatio: number): Quietness {
  const share = Math.min(1, exp(logQuiet - logAll));
  const taken = (1 - falseAlarmRatio) * share;
  const rest = falseAlarmRatio * share + (1 - share);
  const mix = (all: number, quiet: number) => Math.max(0, all - taken * quiet) / rest;
  return {
    logFactor: ln(rest),
    taken,
    quiet: (falseAlarmRatio * share) / rest,
    mixing: { weight: 1 / rest, quiet: taken / rest },
    mix,
    mixAll: (all, quiet) => all.map((x, i) => mix(x, quiet[i] ?? 0)),
  };
}
