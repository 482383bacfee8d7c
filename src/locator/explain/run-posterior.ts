/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { SeriesPart } from './component-priors.js';
import { EFFECT_COUNT, FEED_BELOW, FEED_COUNT, VIEW_ABOVE, VIEW_COUNT } from './run-effects.js';
import { FEEDS_BELOW, leadsTo } from './views-through.js';

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

/** The points of some feeds in a row, and where each feed's begin; -1 for other feeds. */
class Points {
  readonly count: number;
  private readonly rows = new Int16Array(FEED_COUNT).fill(-1);
  constructor(readonly feeds: readonly number[]) {
    feeds.forEach((feed, i) => (this.rows[feed] = i * VIEW_COUNT));
    this.count = feeds.length * VIEW_COUNT;
  }

  /** Where the points below a component begin that has an effect on one of the feeds; -1 where none of the feeds is left. */
  through(effect: number, feed: number): number {
    return this.rows[FEED_BELOW[feed * EFFECT_COUNT + effect]!]!;
  }

  /** Of a table by point, the rows of the feeds. */
  of(table: Float64Array): Float64Array {
    const own = new Float64Array(this.count);
    this.feeds.forEach((feed, i) => {
      const row = feed * VIEW_COUNT;
      own.set(table.subarray(row, row + VIEW_COUNT), i * VIEW_COUNT);
    });
    return own;
  }
}

/** Upward through one component: `faulty` = its faults over the points above it, `above` = those and `ok`. */
function passUp(
  { ok, effects, chances }: SeriesPart,
  points: Points,
  below: Float64Array,
  faulty: Float64Array,
): Float64Array {
  const { feeds, count } = points;
  for (let m = 0; m < effects.length; m++) {
    const effect = effects[m]!;
    const chance = chances[m]!;
    for (let i = 0; i < feeds.length; i++) {
      const from = points.through(effect, feeds[i]!);
      if (from < 0) continue;
      for (let view = 0; view < VIEW_COUNT; view++)
        faulty[i * VIEW_COUNT + VIEW_ABOVE[view * EFFECT_COUNT + effect]!]! +=
          chance * below[from + view]!;
    }
  }
  const above = new Float64Array(count);
  for (let i = 0; i < count; i++) above[i] = faulty[i]! + ok * below[i]!;
  return above;
}

/** Downward through one component. */
function passDown(
  { ok, effects, chances }: SeriesPart,
  points: Points,
  down: Float64Array,
): Float64Array {
  const { feeds } = points;
  const passed = down.map((mass) => ok * mass);
  for (let m = 0; m < effects.length; m++) {
    const effect = effects[m]!;
    const chance = chances[m]!;
    for (let i = 0; i < feeds.length; i++) {
      const to = points.through(effect, feeds[i]!);
      if (to < 0) continue;
      for (let view = 0; view < VIEW_COUNT; view++)
        passed[to + view]! +=
          chance * down[i * VIEW_COUNT + VIEW_ABOVE[view * EFFECT_COUNT + effect]!]!;
    }
  }
  return passed;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
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
  const points = new Points(feedsBetween(ends));
  const end = new Float64Array(POINT_COUNT);
  end[ends.below] = 1;
  let above = points.of(end);
  const parts = groups.flat();
  const faulty = parts.map(() => new Float64Array(points.count));
  for (let p = parts.length - 1; p >= 0; p--) above = passUp(parts[p]!, points, above, faulty[p]!);
  let down = points.of(ends.above);
  const whole = dot(down, above);
  let p = 0;
  return Float64Array.from(groups, (group) => {
    let chance = 0;
    let good = 1;
    const top = down;
    for (const part of group) {
      chance += good * dot(top, faulty[p++]!);
      good *= part.ok;
      down = passDown(part, points, down);
    }
    return chance / whole;
  });
}
