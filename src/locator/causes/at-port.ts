/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { exp } from '../../elementary/exp.js';
import { joined, joinedScale } from '../sweep/join.js';
import { MOST_LOG, portFeeds } from '../sweep/port.js';
import type { UpwardSweep } from '../sweep/sweep-trunk.js';
import { zeroTable } from '../numbers/zero-table.js';

/** Posterior masses at the port of one trunk, by head-end group. */
export interface AtPort {
  readonly noOutput: Float64Array;
  /** The port is good, and a short is seen that stops what needs a reach: at (reach - 1) * groups + group. */
  readonly short: Float64Array;
}

export function atPort(
  { model, tables, port }: UpwardSweep,
  logWeights: Float64Array,
  groups: number,
): AtPort {
  const { join, siteContext, closing, labelWeight, logFlat } = port;
  const { count: states, feed, view } = model.space;
  const { most, shortableByReach } = model.system.feedClasses;
  const { table, at, stride, step, map } = joined(join);
  const noOutput = zeroTable(groups);
  const short = zeroTable(most * groups);
  for (let c = 0; c < join.contexts; c++) {
    const weight = logWeights[siteContext[c]!]!;
    if (weight === -Infinity) continue;
    const group = c % groups;
    for (let s = 0; s < states; s++) {
      const logScale = joinedScale(tables, join, c, feed[s]!);
      const scale = exp(Math.min(weight + logFlat + logScale, MOST_LOG)) * closing[c]!;
      let below = 0;
      labelWeight.forEach((said, l) => {
        below += said * table[at + s * stride + l * step + map[c]!]!;
      });
      const { ok, dead } = portFeeds(model, s, group);
      noOutput[group]! += scale * dead * below;
      for (let reach = 1; reach <= most; reach++)
        if (view[s]! & shortableByReach[reach]!)
          short[(reach - 1) * groups + group]! += scale * ok * below;
    }
  }
  return { noOutput, short };
}
