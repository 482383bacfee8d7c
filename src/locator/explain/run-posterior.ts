/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { SeriesPart } from './component-priors.js';
import { EFFECT_COUNT, FEED_BELOW, FEED_COUNT, VIEW_ABOVE, VIEW_COUNT } from './run-effects.js';
import { ACT_COUNT, OK } from './series-acts.js';
import { FEEDS_BELOW, leadsTo, passFeeds } from './views-through.js';
import { zeroTable } from '../numbers/zero-table.js';

/** What is given at the two ends of some components in series. Points are feed * VIEW_COUNT + view. */
export interface RunEnds {
  /** Weights of points above the first. */
  readonly above: Float64Array;
  /** The point below the last. */
  readonly below: number;
}

export const POINT_COUNT = FEED_COUNT * VIEW_COUNT;

/** Feeds that can be on the way from one end to the other. */
export function feedsBetween({ above, below }: RunEnds): number[] {
  const last = Math.floor(below / VIEW_COUNT);
  const between = new Set<number>();
  for (let top = 0; top < FEED_COUNT; top++)
    for (let point = top * VIEW_COUNT; point < (top + 1) * VIEW_COUNT; point++)
      if (above[point]! > 0) {
        for (const feed of FEEDS_BELOW[top]!) if (leadsTo(feed, last)) between.add(feed);
        break;
      }
  return [...between].sort((a, b) => a - b);
}

/** The acts of one component at a time, without the good one. */
const FAULTS = new Float64Array(ACT_COUNT);

/** Upward through one component: `faulty` = its faults over the points above it, `above` = those and `ok`. */
function passUp(
  { ok, acts }: SeriesPart,
  feeds: readonly number[],
  last: number,
  below: Float64Array,
  faulty: Float64Array,
  above: Float64Array,
): void {
  FAULTS.set(acts);
  FAULTS[OK] = 0;
  passFeeds(FAULTS, 0, feeds, last, below, faulty);
  for (const feed of feeds)
    for (let i = feed * VIEW_COUNT; i < (feed + 1) * VIEW_COUNT; i++)
      above[i] = faulty[i]! + ok * below[i]!;
}

/** Downward through one component: adds to `passed`. */
function passDown(
  { ok, effects, chances }: SeriesPart,
  feeds: readonly number[],
  down: Float64Array,
  passed: Float64Array,
): void {
  for (let i = 0; i < feeds.length; i++) {
    const feed = feeds[i]!;
    const row = feed * VIEW_COUNT;
    for (let at = row; at < row + VIEW_COUNT; at++) passed[at]! += ok * down[at]!;
    for (let m = 0; m < effects.length; m++) {
      const effect = effects[m]!;
      const chance = chances[m]!;
      const to = FEED_BELOW[feed * EFFECT_COUNT + effect]! * VIEW_COUNT;
      for (let view = 0; view < VIEW_COUNT; view++)
        passed[to + view]! += chance * down[row + VIEW_ABOVE[view * EFFECT_COUNT + effect]!]!;
    }
  }
}

function dot(a: Float64Array, b: Float64Array, feeds: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < feeds.length; i++) {
    const row = feeds[i]! * VIEW_COUNT;
    for (let at = row; at < row + VIEW_COUNT; at++) sum += a[at]! * b[at]!;
  }
  return sum;
}

/** Most runs are short: they share one array, of which only the feeds on the way are ever read. */
const SHORT_RUN = new Float64Array(64 * POINT_COUNT);

/** So many tables by point, 0 at these feeds. */
function emptyTables(count: number, feeds: readonly number[]): Float64Array {
  if (count * POINT_COUNT > SHORT_RUN.length) return zeroTable(count * POINT_COUNT);
  for (let t = 0; t < count; t++)
    for (let i = 0; i < feeds.length; i++) {
      const from = t * POINT_COUNT + feeds[i]! * VIEW_COUNT;
      for (let at = from; at < from + VIEW_COUNT; at++) SHORT_RUN[at] = 0;
    }
  return SHORT_RUN;
}

/**
 * Given both ends, P(at least one faulty) of each group of neighbouring components (a span's three, a station); sums of
 * disjoint cases by which is the first faulty one.
 * @param groups from the top down
 */
export function runPosterior(
  groups: readonly (readonly SeriesPart[])[],
  ends: RunEnds,
): Float64Array {
  const feeds = feedsBetween(ends);
  const last = Math.floor(ends.below / VIEW_COUNT);
  const parts = groups.flat();
  // One array, cut up: by component what its faults give, and then what comes up and down.
  const count = 2 * parts.length + 4;
  const tables = emptyTables(count, feeds);
  const table = (t: number) => tables.subarray(t * POINT_COUNT, (t + 1) * POINT_COUNT);
  let [below, above] = [table(2 * parts.length + 2), table(2 * parts.length + 3)];
  below[ends.below] = 1;
  for (let p = parts.length - 1; p >= 0; p--) {
    passUp(parts[p]!, feeds, last, below, table(p), above);
    [below, above] = [above, below];
  }
  const whole = dot(ends.above, below, feeds);
  const found = zeroTable(groups.length);
  let down = table(parts.length);
  down.set(ends.above);
  let p = 0;
  groups.forEach((group, g) => {
    const top = down;
    let good = 1 / whole;
    for (const part of group) {
      found[g]! += good * dot(top, table(p), feeds);
      good *= part.ok;
      const passed = table(parts.length + ++p);
      passDown(part, feeds, down, passed);
      down = passed;
    }
  });
  return found;
}
