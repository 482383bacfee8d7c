import type { Place } from '../../drawing/drawn-node.js';

import { compareIds } from '../../drawing/drawn-tree.js';

/** Numbers nearer than this are one number for sorting: sums done in another order must not change an answer's order. */
const RESOLUTION = 1e12;

/** Sorts by a number, largest first; equals by id, so that the same evidence always prints the same answer. */
export function sortLargestFirst<T>(
  items: readonly T[],
  size: (item: T) => number,
  compareById: (a: T, b: T) => number,
): T[] {
  const keyed = items.map((item) => ({ item, key: Math.round(size(item) * RESOLUTION) }));
  keyed.sort((a, b) => b.key - a.key || compareById(a.item, b.item));
  return keyed.map(({ item }) => item);
}

const KINDS: readonly Place['kind'][] = ['head-end', 'port', 'span', 'station'];

/** By trunk, then by node; at one node the span before the station; the head-end first of all. */
export function comparePlaces(a: Place, b: Place): number {
  return (
    compareIds(trunkOf(a), trunkOf(b)) ||
    compareIds(nodeOf(a), nodeOf(b)) ||
    KINDS.indexOf(a.kind) - KINDS.indexOf(b.kind)
  );
}

function trunkOf(place: Place): string {
  return place.kind === 'head-end' ? '' : place.trunk;
}

function nodeOf(place: Place): string {
  if (place.kind === 'span') return place.to;
  return place.kind === 'station' ? place.node : '';
}
