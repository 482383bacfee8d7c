/** An observation with its weight; the fit follows their order. */
export interface WeightedValue {
  value: number;
  weight: number;
}

/**
 * The non-decreasing sequence nearest to the values by weighted squares: pool adjacent violators.
 * One fitted value for each given one. Linear.
 */
export function isotonicFit(values: readonly WeightedValue[]): number[] {
  const pools: { sum: number; weight: number; count: number }[] = [];
  for (const { value, weight } of values) {
    let pool = { sum: value * weight, weight, count: 1 };
    for (
      let last = pools.at(-1);
      last && last.sum * pool.weight >= pool.sum * last.weight;
      last = pools.at(-1)
    ) {
      pool = {
        sum: last.sum + pool.sum,
        weight: last.weight + pool.weight,
        count: last.count + pool.count,
      };
      pools.pop();
    }
    pools.push(pool);
  }
  return pools.flatMap(({ sum, weight, count }) => new Array<number>(count).fill(sum / weight));
}
