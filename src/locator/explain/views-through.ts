/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ALL_CORES, RETURN } from '../../plan/cores.js';
import { FEED_COUNT, VIEW_COUNT, WEAK_FEED } from './run-effects.js';
import { ACT_COUNT, OK, OPEN, PARTED, SHORT, WEAKENED } from './series-acts.js';

/** Whether components in series can make one feed of the other: none brings a core back, or makes a weak feed full. */
export function leadsTo(above: number, below: number): boolean {
  return (below & ~above & ALL_CORES) === 0 && (above & ~below & WEAK_FEED) === 0;
}

const FEEDS = [...Array(FEED_COUNT).keys()];

/** By feed, those that components in series can make of it. */
export const FEEDS_BELOW: readonly Uint8Array[] = FEEDS.map((above) =>
  Uint8Array.from(FEEDS.filter((below) => leadsTo(above, below))),
);

/** By feed above * FEED_COUNT + feed below, the feeds that can be on the way between them, those two included. */
const FEEDS_BETWEEN: readonly Uint8Array[] = FEEDS.flatMap((above) =>
  FEEDS.map((below) => FEEDS_BELOW[above]!.filter((feed) => leadsTo(feed, below))),
);

export function feedsOnTheWay(above: number, below: number): Uint8Array {
  return FEEDS_BETWEEN[above * FEED_COUNT + below]!;
}

const RETURN_OPEN = OPEN + 3;

/**
 * Upward at one feed, through what leaves it as it is: nothing, shorts, and opens of what is not there. Written out by
 * view, of which supply, speech and select have a bit each: as loops over cores and views it took three times as long.
 */
function keepFeed(
  acts: Float64Array,
  a: number,
  feed: number,
  below: Float64Array,
  above: Float64Array,
): void {
  const row = feed * VIEW_COUNT;
  const same = acts[a + OK]! + (feed & WEAK_FEED ? acts[a + WEAKENED]! : 0);
  // An open of a core that is not there leaves the feed as it is, and hides the core's short.
  const open0 = feed & 1 ? 0 : acts[a + OPEN]!;
  const open1 = feed & 2 ? 0 : acts[a + OPEN + 1]!;
  const open2 = feed & 4 ? 0 : acts[a + OPEN + 2]!;
  const openReturn = feed & RETURN ? 0 : acts[a + RETURN_OPEN]!;
  const hidden = openReturn + (feed & ALL_CORES ? 0 : acts[a + PARTED]!);
  const short0 = acts[a + SHORT]!;
  const short1 = acts[a + SHORT + 1]!;
  const short2 = acts[a + SHORT + 2]!;
  const b0 = below[row]!;
  const b1 = below[row + 1]!;
  const b2 = below[row + 2]!;
  const b3 = below[row + 3]!;
  const b4 = below[row + 4]!;
  const b5 = below[row + 5]!;
  const b6 = below[row + 6]!;
  const b7 = below[row + 7]!;
  const [all0, all1] = [b0 + b1 + b2 + b3, b4 + b5 + b6 + b7];
  above[row] =
    same * b0 + open0 * (b0 + b1) + open1 * (b0 + b2) + open2 * (b0 + b4) + hidden * (all0 + all1);
  above[row + 1] = same * b1 + short0 * (b0 + b1) + open1 * (b1 + b3) + open2 * (b1 + b5);
  above[row + 2] = same * b2 + open0 * (b2 + b3) + short1 * (b0 + b2) + open2 * (b2 + b6);
  above[row + 3] = same * b3 + short0 * (b2 + b3) + short1 * (b1 + b3) + open2 * (b3 + b7);
  above[row + 4] = same * b4 + open0 * (b4 + b5) + open1 * (b4 + b6) + short2 * (b0 + b4);
  above[row + 5] = same * b5 + short0 * (b4 + b5) + open1 * (b5 + b7) + short2 * (b1 + b5);
  above[row + 6] = same * b6 + open0 * (b6 + b7) + short1 * (b4 + b6) + short2 * (b2 + b6);
  above[row + 7] = same * b7 + short0 * (b6 + b7) + short1 * (b5 + b7) + short2 * (b3 + b7);
}

function sumOf(below: Float64Array, feed: number): number {
  let sum = 0;
  for (let i = feed * VIEW_COUNT; i < (feed + 1) * VIEW_COUNT; i++) sum += below[i]!;
  return sum;
}

/** What makes another feed of it, of those that lead to `last`. */
function changeFeed(
  acts: Float64Array,
  a: number,
  feed: number,
  last: number,
  below: Float64Array,
  above: Float64Array,
): void {
  const row = feed * VIEW_COUNT;
  const lost = feed & ~last & ALL_CORES;
  for (let core = 0; core < 3; core++) {
    const bit = 1 << core;
    if (!(lost & bit)) continue;
    const open = acts[a + OPEN + core]!;
    const from = (feed & ~bit) * VIEW_COUNT;
    for (let view = 0; view < VIEW_COUNT; view++)
      above[row + (view & ~bit)]! += open * below[from + view]!;
  }
  if (lost & RETURN) above[row]! += acts[a + RETURN_OPEN]! * sumOf(below, feed & ~RETURN);
  if (lost > 0 && !(last & ALL_CORES))
    above[row]! += acts[a + PARTED]! * sumOf(below, feed & WEAK_FEED);
  if (last & ~feed & WEAK_FEED) {
    const from = (feed | WEAK_FEED) * VIEW_COUNT;
    for (let view = 0; view < VIEW_COUNT; view++)
      above[row + view]! += acts[a + WEAKENED]! * below[from + view]!;
  }
}

/**
 * Upward through one component, whose acts begin at `a`: `above` at some feeds from `below`, which are tables by
 * feed * VIEW_COUNT + view. The feeds are all that can be on the way to the feed `last`.
 */
export function passFeeds(
  acts: Float64Array,
  a: number,
  feeds: ArrayLike<number>,
  last: number,
  below: Float64Array,
  above: Float64Array,
): void {
  for (let i = 0; i < feeds.length; i++) {
    const feed = feeds[i]!;
    keepFeed(acts, a, feed, below, above);
    if (feed !== last) changeFeed(acts, a, feed, last, below, above);
  }
}

const BUFFERS = [
  new Float64Array(FEED_COUNT * VIEW_COUNT),
  new Float64Array(FEED_COUNT * VIEW_COUNT),
] as const;

/**
 * P(feed below, view above | feed above, view below) of components in series, by view above: only what can be on the way
 * between the two feeds is looked at, which is nearly always one feed and not 32.
 * @param acts as seriesActs gives them, from the top down
 */
export function viewsThrough(
  acts: Float64Array,
  feedAbove: number,
  feedBelow: number,
  viewBelow: number,
): Float64Array {
  const between = feedsOnTheWay(feedAbove, feedBelow);
  let [below, above] = BUFFERS;
  for (const feed of between) below.fill(0, feed * VIEW_COUNT, (feed + 1) * VIEW_COUNT);
  below[feedBelow * VIEW_COUNT + viewBelow] = 1;
  for (let a = acts.length - ACT_COUNT; a >= 0; a -= ACT_COUNT) {
    passFeeds(acts, a, between, feedBelow, below, above);
    [below, above] = [above, below];
  }
  return below.slice(feedAbove * VIEW_COUNT, (feedAbove + 1) * VIEW_COUNT);
}
