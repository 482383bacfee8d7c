/**
 * base to the power of a whole number from 0 on, by multiplying: `**` is as little the same on every engine as Math.exp is (see exp.ts). Each
 * multiplication is off by half a unit in the last place at most.
 */
export function power(base: number, count: number): number {
  let product = 1;
  for (let at = 0; at < count; at++) product *= base;
  return product;
}
