import type { CoreSet } from '../../plan/cores.js';
import { FEED_CLASSES } from './feed-classes.js';
import { StateSpace } from './state-space.js';

// The states of a trunk of which nothing was told while it was disconnected somewhere.

export const STATES = new StateSpace({
  reaches: [],
  seenIn: [1],
  points: [{ cutOff: 0, beyond: 0 }],
});
export const STATE_COUNT = STATES.count;
export const EFFECTS = STATES.effects;

const INDEX = Int8Array.from({ length: 8 * FEED_CLASSES }, (_, i) =>
  STATES.stateAt([Math.floor(i / FEED_CLASSES)], [i % FEED_CLASSES]),
);

/** -1 where the two cannot be together. */
export function stateOf(view: CoreSet, feed: number): number {
  return INDEX[view * FEED_CLASSES + feed] ?? -1;
}
