/* eslint-disable @typescript-eslint/no-non-null-assertion -- loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { type CoreSet, SELECT, SPEECH, SUPPLY } from '../../plan/cores.js';
import type { SpanEffect } from '../../plan/modes.js';
import { coresOfClass, DEAD_FEED, FEED_CLASSES, feedClass, REACH, WEAK } from './feed-classes.js';

/** The class of feed where shorts of these cores are seen from the port. */
export function shorted(feed: number, seen: CoreSet): number {
  return feedClass(coresOfClass(feed) & ~seen, WEAK[feed] === 1);
}

/** The class of feed below a component with this effect, given the class above it. */
export function feedBelow(effect: SpanEffect, feed: number): number {
  return feedClass(coresOfClass(feed) & ~effect.removes, WEAK[feed] === 1 || effect.weakens);
}

/** The cores whose short stops what needs a reach. */
export const SHORTABLE_BY_REACH: readonly CoreSet[] = [
  0,
  SUPPLY,
  SUPPLY | SPEECH,
  SUPPLY | SPEECH | SELECT,
];
export const SHORTABLE_CORES: readonly CoreSet[] = [SUPPLY, SPEECH, SELECT];

/** By core that can be shorted: the sets of ways, as bits, in which its short can be seen together. */
export function setsOf({ reaches, seenIn }: Omit<SpaceShape, 'points'>): number[][] {
  const needs = needsOf(reaches);
  return SHORTABLE_CORES.map((core) => {
    const needing = needs.reduce((set, own, way) => (own & core ? set | (1 << way) : set), 0);
    return unionsOf(seenIn.map((set) => set & needing));
  });
}

/** How many views there are in a space, without making it. */
export function countViews(shape: Omit<SpaceShape, 'points'>): number {
  return setsOf(shape).reduce((product, sets) => product * sets.length, 1);
}

export function needsOf(reaches: readonly number[]): CoreSet[] {
  const most = reaches.map((set) => SHORTABLE_BY_REACH[Math.floor(Math.log2(set))]!);
  return [SUPPLY | SPEECH | SELECT, ...most];
}

/** What the states of a trunk must tell apart. Ways in which it was connected are numbered: 0 whole, then disconnected. */
export interface SpaceShape {
  /** By disconnection, as bits (1 << reach): the reaches that functions need which were tried then. */
  readonly reaches: readonly number[];
  /** Sets of ways, as bits, in which a short can be seen from some point. */
  readonly seenIn: readonly number[];
  readonly points: readonly PointKind[];
}

/** Points that have the same disconnections between them and the port, and the same beyond them: sets of ways, as bits. */
export interface PointKind {
  readonly cutOff: number;
  readonly beyond: number;
}

function unionsOf(sets: readonly number[]): number[] {
  const found = new Set([0, ...sets]);
  for (const a of found) for (const b of sets) found.add(a | b);
  return [...found];
}

/** Of each class of feed, the one that serves the same of some reaches, and no others. */
export function onlyReaches(reaches: number): Uint8Array {
  return Uint8Array.from({ length: FEED_CLASSES }, (_, feed) => {
    let reach = REACH[feed]!;
    while (reach > 0 && !(reaches & (1 << reach))) reach--;
    return reach === 0 ? DEAD_FEED : 2 * reach - 1 + WEAK[feed]!;
  });
}
