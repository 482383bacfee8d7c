/** log(exp(a) + exp(b)), also where both are -Infinity. */
export function logAdd(a: number, b: number): number {
  const most = Math.max(a, b);
  const least = Math.min(a, b);
  return least === -Infinity ? most : most + Math.log1p(Math.exp(least - most));
}
