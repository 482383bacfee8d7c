import { ALL_CORES, type CoreSet, RETURN, SUPPLY } from '../../plan/cores.js';
import type { SpanEffect } from '../../plan/modes.js';

// All that components in series do to what travels on them is: some cores do not get through, the feed gets weak, and some
// shorts are seen from above whatever is below. So a run of any length is one of 256 effects, as bits: cores removed (1 to
// 8), weak (16), shorts seen (32 to 128, in the same order). Feeds are 5 bits: cores, and 16 for weak.
// This is section 3 of the fault model with all its feeds, not the classes that the sweeps merge.

export const EFFECT_COUNT = 256;
export const WEAK_FEED = 16;
/** Feeds as numbers: 16 sets of cores, full or weak. */
export const FEED_COUNT = 32;
export const VIEW_COUNT = 8;

/** Cores whose short below is still seen above, by the set of cores removed. */
const KEEPS = Uint8Array.from({ length: 16 }, (_, removed) =>
  removed & RETURN ? 0 : ALL_CORES & ~RETURN & ~removed,
);

const removedBy = (effect: number): CoreSet => effect & ALL_CORES;
const seenIn = (effect: number): CoreSet => effect >> 5;

/** The effect of a mode of a junction or cable. */
export function bits({ removes, shorts, weakens }: SpanEffect): number {
  return removes | (weakens ? WEAK_FEED : 0) | (shorts << 5);
}

function combined(above: number, below: number): number {
  const seen = (seenIn(below) & (KEEPS[removedBy(above)] ?? 0)) | seenIn(above);
  return ((above | below) & (ALL_CORES | WEAK_FEED)) | (seen << 5);
}

/** By above * EFFECT_COUNT + below. */
const IN_SERIES = Uint8Array.from({ length: EFFECT_COUNT * EFFECT_COUNT }, (_, i) =>
  combined(Math.floor(i / EFFECT_COUNT), i % EFFECT_COUNT),
);

/** The effect of two in series, the first above the second. */
export function inSeries(above: number, below: number): number {
  return IN_SERIES[above * EFFECT_COUNT + below] ?? 0;
}

/** The view above something with an effect, given the view below it. */
export function viewThrough(effect: number, view: CoreSet): CoreSet {
  return (view & (KEEPS[removedBy(effect)] ?? 0)) | seenIn(effect);
}

/** The feed below something with an effect, given the feed above it. */
export function feedThrough(effect: number, feed: number): number {
  return (feed & ~removedBy(effect)) | (effect & WEAK_FEED);
}

/** The effect of a station that shorts the supply. */
export const SHORT_STATION = SUPPLY << 5;

/** viewThrough at view * EFFECT_COUNT + effect, feedThrough at feed * EFFECT_COUNT + effect. */
export const VIEW_ABOVE = Uint8Array.from({ length: VIEW_COUNT * EFFECT_COUNT }, (_, i) =>
  viewThrough(i % EFFECT_COUNT, Math.floor(i / EFFECT_COUNT)),
);
export const FEED_BELOW = Uint8Array.from({ length: FEED_COUNT * EFFECT_COUNT }, (_, i) =>
  feedThrough(i % EFFECT_COUNT, Math.floor(i / EFFECT_COUNT)),
);
