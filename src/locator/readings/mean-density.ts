import { exp } from '../../elementary/exp.js';
import { complementaryError } from '../numbers/complementary-error.js';

/** Up to this width the density is averaged by quadrature: a difference of two tails would lose digits there. */
const NARROW = 0.1;

/** Gauss-Legendre of five points on [-1, 1] (usual table; memory): good to 1e-13 on an interval of NARROW up to 10 deviations away. */
const NODES = [0, 0.538469310105683, 0.906179845938664];
const WEIGHTS = [0.568888888888889, 0.478628670499366, 0.236926885056189];

export function standardDensity(z: number): number {
  return exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
}

/** P(Z > z) of a standard normal, z ≥ 0. */
function upperTail(z: number): number {
  return 0.5 * complementaryError(z / Math.SQRT2);
}

/** The mean of the standard normal density over [low, high], high ≥ low; at one point the density itself. */
export function meanDensity(low: number, high: number): number {
  if (high - low <= NARROW) {
    const middle = (low + high) / 2;
    const half = (high - low) / 2;
    return NODES.reduce((sum, node, k) => {
      const weight = (WEIGHTS[k] ?? 0) / 2;
      if (node === 0) return sum + weight * standardDensity(middle);
      const pair = standardDensity(middle - half * node) + standardDensity(middle + half * node);
      return sum + weight * pair;
    }, 0);
  }
  // Apart by so much, the tail beyond is below the tail before by a part worth a digit at least: nothing cancels.
  if (low >= 0) return (upperTail(low) - upperTail(high)) / (high - low);
  if (high <= 0) return (upperTail(-high) - upperTail(-low)) / (high - low);
  return (0.5 - upperTail(high) + (0.5 - upperTail(-low))) / (high - low);
}
