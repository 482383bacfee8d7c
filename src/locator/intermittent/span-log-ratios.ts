/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { FEED_CLASSES } from '../sweep/feed-classes.js';
import { logAdd } from '../numbers/log-add.js';
import { STATE_COUNT, STATES } from '../sweep/states.js';
import type { UpwardSweep } from '../sweep/sweep-trunk.js';

/**
 * For each span, the logarithm of what the evidence of the site gains if everything behind that span went by `other`'s
 * likelihoods and all else stays as swept, without continuity and loop readings: the message that came down to the top of the span, times the one that goes up
 * there in `other`. `swept` must have been swept down too; both are of one trunk.
 */
export function spanLogRatios(swept: UpwardSweep, other: UpwardSweep): Float64Array {
  const { spans, down, topScale } = swept.tables;
  return Float64Array.from(spans, ({ at, contexts, scaleAt }) => {
    const columns = new Float64Array(FEED_CLASSES * contexts);
    for (let s = 0; s < STATE_COUNT; s++)
      for (let c = 0; c < contexts; c++) {
        const i = at * STATE_COUNT + s * contexts + c;
        columns[STATES.feed[s]! * contexts + c]! += down[i]! * other.tables.top[i]!;
      }
    const base = scaleAt * FEED_CLASSES;
    return columns.reduce((log, sum, i) => {
      const gain = other.tables.topScale[base + i]! - topScale[base + i]!;
      return sum > 0 ? logAdd(log, Math.log(sum) + gain) : log;
    }, -Infinity);
  });
}
