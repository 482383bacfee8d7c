import { ALL_CORES, type CoreSet, RETURN, SELECT, SPEECH, SUPPLY } from '../../plan/cores.js';
import { CORES_NEEDED } from '../../plan/functions.js';

// Feeds that no function can tell apart, now or further down, are one class: without supply and return nothing works;
// without speech it does not matter whether select arrives. So the 32 feeds of section 3 become 7 classes:
// the reach of the feed (0 nothing, 1 lamp, 2 also sound, 3 everything) and, above 0, whether it is full or weak.

export const FEED_CLASSES = 7;
export const DEAD_FEED = 0;
export const FULL_FEED = 5;

/** Which functions a feed of some cores can serve: 0 none, 1 the lamp, 2 also sound, 3 also room call and talkback. */
export function reachOfCores(cores: CoreSet): number {
  if ((cores & (SUPPLY | RETURN)) !== (SUPPLY | RETURN)) return 0;
  if (!(cores & SPEECH)) return 1;
  return cores & SELECT ? 3 : 2;
}

export function feedClass(cores: CoreSet, weak: boolean): number {
  const reach = reachOfCores(cores);
  return reach === 0 ? DEAD_FEED : 2 * reach - 1 + (weak ? 1 : 0);
}

/** A feed of the class: the largest set of cores in it. */
export function coresOfClass(feed: number): CoreSet {
  const reach = REACH[feed] ?? 0;
  if (reach === 0) return ALL_CORES & ~SUPPLY;
  if (reach === 1) return ALL_CORES & ~SPEECH;
  return reach === 2 ? ALL_CORES & ~SELECT : ALL_CORES;
}

/** The reach of each class. */
export const REACH = Uint8Array.of(0, 1, 1, 2, 2, 3, 3);

/** 1 where the class is weak. */
export const WEAK = Uint8Array.of(0, 0, 1, 0, 1, 0, 1);

/** The reach that each function needs, in the order of FUNCTIONS. */
export const REACH_NEEDED = Uint8Array.from(CORES_NEEDED, reachOfCores);
