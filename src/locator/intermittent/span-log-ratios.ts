/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ln } from '../../elementary/ln.js';
import { logAdd } from '../numbers/log-add.js';
import type { UpwardSweep } from '../sweep/sweep-trunk.js';

/**
 * For each span, the logarithm of what the evidence of the site gains if everything behind that span went by `other`'s
 * likelihoods and all else stays as swept, without continuity and loop readings: the message that came down to the top of the span, times the one that goes up
 * there in `other`. `swept` must have been swept down too; both are of one trunk.
 */
export function spanLogRatios(swept: UpwardSweep, other: UpwardSweep): Float64Array {
  const { spans, down, topScale } = swept.tables;
  const { count, feeds, feed } = swept.model.space;
  const most = Math.max(...spans.map(({ contexts }) => contexts));
  const columns = new Float64Array(feeds * most);
  return Float64Array.from(spans, ({ at, contexts, scaleAt }) => {
    columns.fill(0);
    for (let s = 0; s < count; s++)
      for (let c = 0; c < contexts; c++) {
        const i = at * count + s * contexts + c;
        columns[feed[s]! * contexts + c]! += down[i]! * other.tables.top[i]!;
      }
    const base = scaleAt * feeds;
    let log = -Infinity;
    for (let i = 0; i < feeds * contexts; i++) {
      const gain = other.tables.topScale[base + i]! - topScale[base + i]!;
      if (columns[i]! > 0) log = logAdd(log, ln(columns[i]!) + gain);
    }
    return log;
  });
}
