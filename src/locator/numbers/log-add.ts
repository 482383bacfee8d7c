import { exp } from '../../elementary/exp.js';
import { log1p } from '../../elementary/ln.js';
/** log(exp(a) + exp(b)), also where both are -Infinity. */
export function logAdd(a: number, b: number): number {
  const most = Math.max(a, b);
  const least = Math.min(a, b);
  return least === -Infinity ? most : most + log1p(exp(least - most));
}
