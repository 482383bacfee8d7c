/** log Σ exp(x), without overflow; -Infinity for nothing or only -Infinity. */
export function logSumExp(values: readonly number[]): number {
  const largest = values.reduce((max, value) => Math.max(max, value), -Infinity);
  if (largest === -Infinity) return -Infinity;
  return largest + Math.log(values.reduce((sum, value) => sum + Math.exp(value - largest), 0));
}
