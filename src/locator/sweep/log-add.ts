/** log(exp(a) + exp(b)), also where both are -Infinity. */
export function logAdd(a: number, b: number): number {
  const most = Math.max(a, b);
  return most === -Infinity ? most : most + Math.log1p(Math.exp(Math.min(a, b) - most));
}
