/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { NodeJoin } from './node-join.js';
import { DEAD_FEED } from './feed-classes.js';
import { isOnlySpan, type Join, joined } from './join.js';
import type { NodeSlot, SpanSlot, TrunkTables } from './trunk-tables.js';
import { zeroTable } from '../numbers/zero-table.js';

/** What the sweep down finds at the nodes, before the station's modes are multiplied in. */
export interface NodeMasses {
  /** Where each node's are. */
  readonly slots: readonly NodeSlot[];
  /** Posterior mass of each feed, at the node's at * feeds + feed * contexts + context. */
  readonly feeds: Float64Array;
  /** The same for the dead feed of a station that shorts the supply, at the node's at + context. */
  readonly shorted: Float64Array;
}

/** Where the message that comes down to joined spans goes: by state, label and context, from `at` on. */
export interface DownTarget {
  readonly table: Float64Array;
  readonly at: number;
}

/** Of one span with the node's contexts the span's own place in tables.down; else a table for splitJoin. */
export function downTarget(tables: TrunkTables, join: Join): DownTarget {
  const [only] = join.spans;
  if (only && isOnlySpan(join)) return { table: tables.down, at: only.at * tables.space.count };
  const { labels } = joined(join);
  return { table: zeroTable(labels * join.contexts * tables.space.count), at: 0 };
}

/**
 * Downward through a node: from the message `down` at the bottom of the span above it to the one that comes down to the
 * joined spans below, which is added to `target`; in the contexts that are `live`.
 */
export function descendNode(
  tables: TrunkTables,
  { at, contexts }: NodeSlot,
  live: Int32Array,
  above: SpanSlot,
  { join, spanContext, keep, short }: NodeJoin,
  down: Float64Array,
  { feeds, shorted }: NodeMasses,
  { table: toJoin, at: target }: DownTarget,
): void {
  const { scale, gain, shortGain, space } = tables;
  const {
    count: states,
    feeds: feedCount,
    feed: feedOf,
    dead: deadStates,
    shorted: shortedOf,
  } = space;
  const { table, at: start, stride, labels, step, map } = joined(join);
  for (let s = 0; s < states; s++) {
    const column = at * feedCount + feedOf[s]! * contexts;
    for (let m = 0; m < keep.weight.length; m++) {
      const source = s * above.columns + keep.to[m]! * above.contexts;
      const to = target + (s * labels + keep.from[m]!) * contexts;
      const from = start + s * stride + keep.from[m]! * step;
      const weight = keep.weight[m]!;
      for (let k = 0; k < live.length; k++) {
        const c = live[k]!;
        const message = weight * down[source + spanContext[c]!]!;
        toJoin[to + c]! += message * gain[column + c]!;
        feeds[column + c]! += message * scale[column + c]! * table[from + map[c]!]!;
      }
    }
  }
  const dead = at * feedCount + DEAD_FEED * contexts;
  for (const s of deadStates)
    for (let m = 0; m < short.weight.length; m++) {
      const source = shortedOf[s]! * above.columns + short.to[m]! * above.contexts;
      const to = target + (s * labels + short.from[m]!) * contexts;
      const from = start + s * stride + short.from[m]! * step;
      const weight = short.weight[m]!;
      for (let k = 0; k < live.length; k++) {
        const c = live[k]!;
        const message = weight * down[source + spanContext[c]!]!;
        toJoin[to + c]! += message * shortGain[at + c]!;
        shorted[at + c]! += message * scale[dead + c]! * table[from + map[c]!]!;
      }
    }
}
