import { ln } from '../../elementary/ln.js';
export interface NormalLogDensities {
  /** Of all residuals together. */
  all: number;
  /** Of all but one: entry i leaves residual i out. */
  without: number[];
}

const LOG_TWO_PI = ln(2 * Math.PI);

/**
 * Log density of a zero-mean normal vector, and of the vector with each entry left out in turn.
 * With precision P = C⁻¹, entry i given the others is normal around r_i - (P r)_i / P_ii with
 * variance 1/P_ii, so leaving it out divides by that density (the usual partitioned-normal form).
 * `covariance` must be positive definite: the callers add every reading's own variance to it.
 */
export function normalLogDensities(
  residuals: readonly number[],
  covariance: readonly (readonly number[])[],
): NormalLogDensities {
  const { inverse, logDeterminant } = invert(covariance);
  const weighted = inverse.map((row) =>
    row.reduce((sum, p, j) => sum + p * (residuals[j] ?? 0), 0),
  );
  const square = residuals.reduce((sum, r, i) => sum + r * (weighted[i] ?? 0), 0);
  const all = -0.5 * (residuals.length * LOG_TWO_PI + logDeterminant + square);
  const without = weighted.map((value, i) => {
    const precision = inverse[i]?.[i] ?? 0;
    const given = -0.5 * (LOG_TWO_PI - ln(precision) + (value * value) / precision);
    return all - given;
  });
  return { all, without };
}

/** Gauss-Jordan without pivoting, which a positive definite matrix does not need. */
function invert(matrix: readonly (readonly number[])[]) {
  const size = matrix.length;
  const rows = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  let logDeterminant = 0;
  rows.forEach((pivotRow, i) => {
    const pivot = pivotRow[i] ?? 0;
    logDeterminant += ln(pivot);
    for (let k = 0; k < 2 * size; k++) pivotRow[k] = (pivotRow[k] ?? 0) / pivot;
    rows.forEach((row, j) => {
      const factor = row[i] ?? 0;
      if (j === i || factor === 0) return;
      for (let k = 0; k < 2 * size; k++) row[k] = (row[k] ?? 0) - factor * (pivotRow[k] ?? 0);
    });
  });
  return { inverse: rows.map((row) => row.slice(size)), logDeterminant };
}
