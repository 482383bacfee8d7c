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
function feedsBetween({ above, below }: RunEnds): number[] {
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

/** Every way through one component that does something: the points above and below, and its chance. */
function eachFault(
  { effects, chances }: SeriesPart,
  feeds: readonly number[],
  visit: (above: number, below: number, chance: number) => void,
): void {
  effects.forEach((effect, m) => {
    for (const feed of feeds) {
      const to = feedThrough(effect, feed) * VIEW_COUNT;
      for (let view = 0; view < VIEW_COUNT; view++)
        visit(feed * VIEW_COUNT + viewThrough(effect, view), to + view, chances[m]!);
    }
  });
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
  const parts = groups.flat();
  const up = [new Float64Array(POINT_COUNT)];
  up[0]![ends.below] = 1;
  for (const part of [...parts].reverse()) {
    const below = up.at(-1)!;
    const above = below.map((mass) => part.ok * mass);
    eachFault(part, feeds, (a, b, chance) => (above[a]! += chance * below[b]!));
    up.push(above);
  }
  up.reverse();
  const whole = up[0]!.reduce((sum, mass, point) => sum + mass * ends.above[point]!, 0);
  let down = ends.above;
  let at = 0;
  return Float64Array.from(groups, (group) => {
    let faulty = 0;
    let good = 1;
    const top = down;
    for (const part of group) {
      const below = up[++at]!;
      const passed = down.map((mass) => part.ok * mass);
      eachFault(part, feeds, (a, b, chance) => {
        faulty += good * chance * top[a]! * below[b]!;
        passed[b]! += chance * down[a]!;
      });
      good *= part.ok;
      down = passed;
    }
    return faulty / whole;
  });
}
