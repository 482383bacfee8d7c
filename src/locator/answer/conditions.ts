/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { FUNCTIONS } from '../model/functions.js';
import { DEAD_FEED, FEED_CLASSES, REACH, REACH_NEEDED, WEAK } from '../sweep/feed-classes.js';
import type { HeadEndGroups } from '../sweep/head-end-groups.js';
import type { NodeMasses } from '../sweep/descend-node.js';
import type { NodeSlot } from '../sweep/trunk-tables.js';
import {
  STATION_CLASS_COUNT,
  STATION_CLASSES,
  type StationChances,
} from '../sweep/station-classes.js';

/** Posterior of one station: of its classes of modes, of its short, and of each function's condition. */
export interface StationPosterior {
  readonly classes: Float64Array;
  short: number;
  /** P(good), P(weak), P(dead) of each function, at function * 3. */
  readonly conditions: Float64Array;
}

const FUNCTION_COUNT = FUNCTIONS.length;

/** By feed class and by class of station mode, each function's condition, at (class * FEED_CLASSES + feed) * 6. */
const CONDITION = Uint8Array.from(
  { length: STATION_CLASS_COUNT * FEED_CLASSES * FUNCTION_COUNT },
  (_, i) => {
    const func = i % FUNCTION_COUNT;
    const feed = Math.floor(i / FUNCTION_COUNT) % FEED_CLASSES;
    const disabled = STATION_CLASSES[Math.floor(i / FUNCTION_COUNT / FEED_CLASSES)]!;
    if (disabled & (1 << func) || REACH[feed]! < REACH_NEEDED[func]!) return 2;
    return WEAK[feed]!;
  },
);

/**
 * Weighs each combination of head-end group, station mode and feed by its posterior, and adds it to the condition that
 * each function has in it (fault model, section 3). All sums are of positive terms.
 */
export function stationPosterior(
  station: StationChances,
  likelihood: Float64Array | null,
  masses: NodeMasses,
  { at: slot, contexts }: NodeSlot,
  live: Int32Array,
  headEnd: HeadEndGroups,
): StationPosterior {
  const classes = new Float64Array(STATION_CLASS_COUNT);
  const conditions = new Float64Array(FUNCTION_COUNT * 3);
  let short = 0;
  const inContext = new Float64Array(FUNCTION_COUNT * 3);
  for (const context of live) {
    const group = (context % headEnd.count) * FUNCTION_COUNT;
    inContext.fill(0);
    for (let k = 0; k < STATION_CLASS_COUNT; k++)
      for (let feed = 0; feed < FEED_CLASSES; feed++) {
        const at = (context * STATION_CLASS_COUNT + k) * FEED_CLASSES + feed;
        const seen = likelihood ? likelihood[at]! : 1;
        const mass =
          station.classes[k]! *
          seen *
          masses.feeds[slot * FEED_CLASSES + feed * contexts + context]!;
        classes[k]! += mass;
        const from = (k * FEED_CLASSES + feed) * FUNCTION_COUNT;
        for (let f = 0; f < FUNCTION_COUNT; f++) inContext[f * 3 + CONDITION[from + f]!]! += mass;
      }
    const dead = context * STATION_CLASS_COUNT * FEED_CLASSES + DEAD_FEED;
    const shorted =
      station.short * (likelihood ? likelihood[dead]! : 1) * masses.shorted[slot + context]!;
    short += shorted;
    for (let f = 0; f < FUNCTION_COUNT; f++) {
      const enabled = headEnd.enabled[group + f]!;
      const good = inContext[f * 3]!;
      const weak = inContext[f * 3 + 1]!;
      const deadHere = inContext[f * 3 + 2]! + shorted;
      conditions[f * 3]! += enabled * good;
      conditions[f * 3 + 1]! += enabled * weak;
      conditions[f * 3 + 2]! +=
        enabled * deadHere + headEnd.disabled[group + f]! * (good + weak + deadHere);
    }
  }
  return { classes, short, conditions };
}
