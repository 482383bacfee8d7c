/* eslint-disable @typescript-eslint/no-non-null-assertion -- loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { CoreSet } from '../../plan/cores.js';
import type { FeedClasses } from './feed-classes.js';

/** By core that can be shorted: the sets of ways, as bits, in which its short can be seen together. */
export function setsOf(
  feedClasses: FeedClasses,
  { reaches, seenIn }: Omit<SpaceShape, 'points'>,
): number[][] {
  const needs = needsOf(feedClasses, reaches);
  return feedClasses.shortableCores.map((core) => {
    const needing = needs.reduce((set, own, way) => (own & core ? set | (1 << way) : set), 0);
    return unionsOf(seenIn.map((set) => set & needing));
  });
}

/** How many views there are in a space, without making it. */
export function countViews(feedClasses: FeedClasses, shape: Omit<SpaceShape, 'points'>): number {
  return setsOf(feedClasses, shape).reduce((product, sets) => product * sets.length, 1);
}

/** By way, the cores whose shorts are told apart. */
export function needsOf(
  { shortable, shortableByReach }: FeedClasses,
  reaches: readonly number[],
): CoreSet[] {
  return [shortable, ...reaches.map((set) => shortableByReach[31 - Math.clz32(set)]!)];
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
