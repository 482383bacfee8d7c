/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { SeriesPart } from './component-priors.js';
import { EFFECT_COUNT, FEED_BELOW, FEED_COUNT, VIEW_ABOVE, VIEW_COUNT } from './run-effects.js';
import { ACT_COUNT, OK } from './series-acts.js';
import { FEEDS_BELOW, leadsTo, passFeeds } from './views-through.js';

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

/** Downward through one component. */
function passDown(
  { ok, effects, chances }: SeriesPart,
  feeds: readonly number[],
  down: Float64Array,
): Float64Array {
  const passed = new Float64Array(POINT_COUNT);
  for (const feed of feeds) {
    const row = feed * VIEW_COUNT;
    for (let i = row; i < row + VIEW_COUNT; i++) passed[i]! += ok * down[i]!;
    for (let m = 0; m < effects.length; m++) {
      const effect = effects[m]!;
      const to = FEED_BELOW[feed * EFFECT_COUNT + effect]! * VIEW_COUNT;
      for (let view = 0; view < VIEW_COUNT; view++)
        passed[to + view]! += chances[m]! * down[row + VIEW_ABOVE[view * EFFECT_COUNT + effect]!]!;
    }
  }
  return passed;
}

function dot(a: Float64Array, b: Float64Array, feeds: readonly number[]): number {
  let sum = 0;
  for (const feed of feeds)
    for (let i = feed * VIEW_COUNT; i < (feed + 1) * VIEW_COUNT; i++) sum += a[i]! * b[i]!;
  return sum;
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
  const faulty = parts.map(() => new Float64Array(POINT_COUNT));
  let [below, above] = [new Float64Array(POINT_COUNT), new Float64Array(POINT_COUNT)];
  below[ends.below] = 1;
  for (let p = parts.length - 1; p >= 0; p--) {
    passUp(parts[p]!, feeds, last, below, faulty[p]!, above);
    [below, above] = [above, below];
  }
  const whole = dot(ends.above, below, feeds);
  let down = ends.above;
  let p = 0;
  return Float64Array.from(groups, (group) => {
    let chance = 0;
    let good = 1;
    const top = down;
    for (const part of group) {
      chance += good * dot(top, faulty[p++]!, feeds);
      good *= part.ok;
      down = passDown(part, feeds, down);
    }
    return chance / whole;
  });
}
