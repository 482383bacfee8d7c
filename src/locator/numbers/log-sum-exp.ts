import { exp } from '../../elementary/exp.js';
import { ln } from '../../elementary/ln.js';
/** log Σ exp(x), without overflow; -Infinity for nothing or only -Infinity. */
export function logSumExp(logs: ArrayLike<number>): number {
  let most = -Infinity;
  for (let i = 0; i < logs.length; i++) most = Math.max(most, logs[i] ?? -Infinity);
  if (most === -Infinity || logs.length === 1) return most;
  let sum = 0;
  for (let i = 0; i < logs.length; i++) sum += exp((logs[i] ?? -Infinity) - most);
  return most + ln(sum);
}
