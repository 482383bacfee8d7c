import { SPAN_EFFECTS, SPAN_MODES } from '../model/modes.js';
import { FEED_CLASSES } from './feed-classes.js';
import { EFFECTS, feedBelow } from './states.js';

// A message's entries are likelihoods of everything below: with hundreds of observations they leave the range of
// doubles, and so does the ratio of what a live and a dead feed make likely. So each column (class of feed) of each table
// is kept with its own logarithm, its *gauge*, and entries are of the order of 1. The messages that come down carry the
// inverse scale, so that a product of the two is a posterior mass and never needs rescaling. Moving between columns
// multiplies by the ratio of their gauges; the gauge above a span is the largest that can reach it, so a ratio that is
// used after the first step is at most 1.

/** Feeds below a span that each feed above can become, given which effect classes can occur in it at all. */
function reachableFeeds(effects: number): number[][] {
  const reach = Array.from({ length: FEED_CLASSES }, (_, feed) => new Set([feed]));
  for (const found of reach)
    for (const feed of found)
      SPAN_MODES.forEach((mode, m) => {
        if (effects & (1 << (EFFECTS.ofMode[m] ?? 0)))
          found.add(feedBelow(SPAN_EFFECTS[mode], feed));
      });
  return reach.map((found) => [...found]);
}

const REACHABLE = new Map<number, number[][]>();

export function reachable(effects: number): number[][] {
  const known = REACHABLE.get(effects) ?? reachableFeeds(effects);
  REACHABLE.set(effects, known);
  return known;
}

/** exp(gauge of the column below - gauge of the column above), at feedAbove * FEED_CLASSES + feedBelow. */
export type Ratios = Float64Array;

/** The ratios where no column has been rescaled. */
export const EQUAL_RATIOS: Ratios = new Float64Array(FEED_CLASSES * FEED_CLASSES).fill(1);

export function ratios(
  above: Float64Array,
  aboveAt: number,
  below: Float64Array,
  belowAt: number,
  reach: readonly (readonly number[])[],
): Ratios {
  const table = new Float64Array(FEED_CLASSES * FEED_CLASSES);
  reach.forEach((feeds, feed) => {
    const gauge = above[aboveAt + feed] ?? 0;
    for (const to of feeds) {
      // A column that is impossible has gauge -Infinity and nothing to give, wherever it would go.
      const from = below[belowAt + to] ?? 0;
      table[feed * FEED_CLASSES + to] = from === -Infinity ? 0 : Math.exp(from - gauge);
    }
  });
  return table;
}
