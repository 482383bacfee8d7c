import { exp, expm1 } from '../elementary/exp.js';
/** The prior of one component: P(ok), and P(mode) in the order of the rates given. */
export interface ModeChances {
  readonly ok: number;
  readonly modes: Float64Array;
}

/**
 * Competing risks (fault model, section 2): P(ok) = exp(-Λt), P(m) = (1 - exp(-Λt)) λm / Λ.
 * `expm1` keeps all digits of a small chance. Rates per year, exposure in years.
 */
export function modeChances(ratesPerYear: ArrayLike<number>, years: number): ModeChances {
  const modes = Float64Array.from(ratesPerYear);
  const total = modes.reduce((sum, rate) => sum + rate, 0);
  if (total === 0) return { ok: 1, modes };
  const faulty = -expm1(-total * years);
  for (let m = 0; m < modes.length; m++) modes[m] = faulty * ((modes[m] ?? 0) / total);
  return { ok: exp(-total * years), modes };
}
