/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ALL_CORES } from '../model/cores.js';
import type { SeriesPart } from './component-priors.js';
import { FEED_COUNT, feedThrough, VIEW_COUNT, viewThrough, WEAK_FEED } from './run-effects.js';

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
  const tops = new Set<number>();
  above.forEach((weight, point) => {
    if (weight > 0) tops.add(Math.floor(point / VIEW_COUNT));
  });
  const leadsTo = (from: number, to: number) =>
    (to & ~from & ALL_CORES) === 0 && (from & ~to & WEAK_FEED) === 0;
  return [...Array(FEED_COUNT).keys()].filter(
    (feed) => leadsTo(feed, last) && [...tops].some((top) => leadsTo(top, feed)),
  );
}

/** Upward through one component: what each point above gives to the end below. */
function passUp(
  { ok, effects, chances }: SeriesPart,
  feeds: readonly number[],
  below: Float64Array,
): Float64Array {
  const above = new Float64Array(POINT_COUNT);
  for (const feed of feeds)
    for (let point = feed * VIEW_COUNT; point < (feed + 1) * VIEW_COUNT; point++)
      above[point] = ok * below[point]!;
  for (let m = 0; m < effects.length; m++)
    for (const feed of feeds) {
      const from = feedThrough(effects[m]!, feed) * VIEW_COUNT;
      for (let view = 0; view < VIEW_COUNT; view++)
        above[feed * VIEW_COUNT + viewThrough(effects[m]!, view)]! +=
          chances[m]! * below[from + view]!;
    }
  return above;
}

/** Downward through one component: `passed` gets what comes below it, and the chance that `top` sees it faulty is added up. */
function passDown(
  { ok, effects, chances }: SeriesPart,
  feeds: readonly number[],
  down: Float64Array,
  top: Float64Array,
  below: Float64Array,
): { passed: Float64Array; faulty: number } {
  const passed = new Float64Array(POINT_COUNT);
  let faulty = 0;
  for (const feed of feeds)
    for (let point = feed * VIEW_COUNT; point < (feed + 1) * VIEW_COUNT; point++)
      passed[point] = ok * down[point]!;
  for (let m = 0; m < effects.length; m++)
    for (const feed of feeds) {
      const to = feedThrough(effects[m]!, feed) * VIEW_COUNT;
      for (let view = 0; view < VIEW_COUNT; view++) {
        const from = feed * VIEW_COUNT + viewThrough(effects[m]!, view);
        faulty += chances[m]! * top[from]! * below[to + view]!;
        passed[to + view]! += chances[m]! * down[from]!;
      }
    }
  return { passed, faulty };
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
  let above: Float64Array = new Float64Array(POINT_COUNT);
  above[ends.below] = 1;
  const up = [above];
  for (const part of groups.flat().reverse()) up.push((above = passUp(part, feeds, above)));
  up.reverse();
  const whole = above.reduce((sum, mass, point) => sum + mass * ends.above[point]!, 0);
  let down = ends.above;
  let at = 0;
  return Float64Array.from(groups, (group) => {
    let chance = 0;
    let good = 1;
    const top = down;
    for (const part of group) {
      const { passed, faulty } = passDown(part, feeds, down, top, up[++at]!);
      chance += good * faulty;
      good *= part.ok;
      down = passed;
    }
    return chance / whole;
  });
}
