/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { DEAD_STATES, type NodeJoin, SHORTED } from './cross-node.js';
import { DEAD_FEED, FEED_CLASSES } from './feed-classes.js';
import { joined } from './join.js';
import { STATE_COUNT, STATES } from './states.js';
import type { SpanSlot, TrunkTables } from './trunk-tables.js';

/** What the sweep down finds at the nodes, before the station's modes are multiplied in. */
export interface NodeMasses {
  /** Posterior mass of each feed, at the node's at * FEED_CLASSES + feed * contexts + context. */
  readonly feeds: Float64Array;
  /** The same for the dead feed of a station that shorts the supply, at the node's at + context. */
  readonly shorted: Float64Array;
}

/**
 * Downward through a node: from the message `down` at the bottom of the span above it to the one that comes down to the
 * joined spans below, which is returned; in the contexts that are `live`.
 */
export function descendNode(
  tables: TrunkTables,
  { at, contexts }: SpanSlot,
  live: Int32Array,
  above: SpanSlot,
  { join, spanContext }: NodeJoin,
  down: Float64Array,
  { feeds, shorted }: NodeMasses,
): Float64Array {
  const { scale, gain, shortGain } = tables;
  const { table, at: from, stride, map } = joined(join);
  const toJoin = new Float64Array(contexts * STATE_COUNT);
  for (let s = 0; s < STATE_COUNT; s++) {
    const column = at * FEED_CLASSES + STATES.feed[s]! * contexts;
    for (let k = 0; k < live.length; k++) {
      const c = live[k]!;
      const message = down[s * above.contexts + spanContext[c]!]!;
      toJoin[s * contexts + c] = message * gain[column + c]!;
      feeds[column + c]! += message * scale[column + c]! * table[from + s * stride + map[c]!]!;
    }
  }
  const dead = at * FEED_CLASSES + DEAD_FEED * contexts;
  for (const s of DEAD_STATES)
    for (let k = 0; k < live.length; k++) {
      const c = live[k]!;
      const message = down[SHORTED[s]! * above.contexts + spanContext[c]!]!;
      toJoin[s * contexts + c]! += message * shortGain[at + c]!;
      shorted[at + c]! += message * scale[dead + c]! * table[from + s * stride + map[c]!]!;
    }
  return toJoin;
}
