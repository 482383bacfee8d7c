/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ln } from '../../elementary/ln.js';
import type { Inside } from './inside.js';
import type { RunBounds } from './run-bounds.js';
import { FEED_COUNT, VIEW_COUNT } from './run-effects.js';
import { FEEDS_BELOW } from './views-through.js';

/** What goes into a run: a feed, with the weights of the views at its top, from `at` on, times exp(log). */
export interface RunTop {
  readonly feed: number;
  readonly weights: Float64Array;
  readonly at: number;
  readonly log: number;
}

/** By view below, log of the most that views above make of it; and with what is known below. */
const SEEN = new Float64Array(VIEW_COUNT);
const KNOWN = new Float64Array(VIEW_COUNT);

/**
 * Adds to `states` those of the informative node `to`, in a context there, that can have at least exp(logLeast) with what is above
 * and below them. Gives whether any that is possible was left out.
 */
export function reach(
  bounds: RunBounds,
  { feed, weights, at, log }: RunTop,
  inside: Inside,
  to: number,
  context: number,
  logLeast: number,
  states: number[],
): boolean {
  let cut = false;
  let best = -Infinity;
  for (let view = 0; view < VIEW_COUNT; view++) {
    SEEN[view] = log + ln(bounds.seen(weights, at, view));
    KNOWN[view] = SEEN[view]! + inside.most(to, context, view);
    best = Math.max(best, KNOWN[view]!);
  }
  for (const below of FEEDS_BELOW[feed]!) {
    const lost = bounds.lost(feed, below);
    if (lost + best < logLeast) {
      cut ||= lost + best > -Infinity;
      continue;
    }
    for (let view = 0; view < VIEW_COUNT; view++) {
      if (KNOWN[view] === -Infinity) continue;
      const state = view * FEED_COUNT + below;
      const bound = lost + SEEN[view]! + inside.at(to, context, state);
      if (bound < logLeast) cut ||= bound > -Infinity;
      else if (!states.includes(state)) states.push(state);
    }
  }
  return cut;
}
