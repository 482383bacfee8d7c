import { exp } from '../../elementary/exp.js';
/** Above this the continued fraction converges fast; below, 1 - erf(x) still keeps all but two of its digits. */
const SERIES_UP_TO = 2;

/** erf by its Taylor series with positive terms: 2/√π · exp(-x²) Σ 2^n x^(2n+1) / (2n+1)!! (usual form; memory). */
function errorFunction(x: number): number {
  let term = x;
  let sum = x;
  for (let n = 1; term > sum * 1e-17; n++) {
    term *= (2 * x * x) / (2 * n + 1);
    sum += term;
  }
  return (2 / Math.sqrt(Math.PI)) * exp(-x * x) * sum;
}

/**
 * erfc(x) for x ≥ 0, to about 13 digits wherever it is above the smallest double. Beyond 2 by its continued fraction
 * exp(-x²)/√π · 1/(x + (1/2)/(x + (2/2)/(x + (3/2)/(x + …)))) (usual form; memory), from the inside out.
 */
export function complementaryError(x: number): number {
  if (x <= SERIES_UP_TO) return 1 - errorFunction(x);
  let tail = x;
  for (let k = 120; k > 0; k--) tail = x + k / 2 / tail;
  return exp(-x * x) / (Math.sqrt(Math.PI) * tail);
}
