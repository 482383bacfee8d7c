/** log of the sum of exp over all of a list; -Infinity for an empty one. */
export function logSum(logs: ArrayLike<number>): number {
  let most = -Infinity;
  for (let i = 0; i < logs.length; i++) most = Math.max(most, logs[i] ?? -Infinity);
  if (most === -Infinity || logs.length === 1) return most;
  let sum = 0;
  for (let i = 0; i < logs.length; i++) sum += Math.exp((logs[i] ?? -Infinity) - most);
  return most + Math.log(sum);
}
