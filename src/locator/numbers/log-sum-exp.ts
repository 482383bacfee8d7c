import { exp } from '../../elementary/exp.js';
import { ln } from '../../elementary/ln.js';
/** log Σ exp(x) of the first `count`, without overflow; -Infinity for nothing or only -Infinity. */
export function logSumExp(logs: Float64Array, count = logs.length): number {
  let most = -Infinity;
  for (let i = 0; i < count; i++) most = Math.max(most, logs[i] ?? -Infinity);
  if (most === -Infinity || count === 1) return most;
  let sum = 0;
  for (let i = 0; i < count; i++) sum += exp((logs[i] ?? -Infinity) - most);
  return most + ln(sum);
}
