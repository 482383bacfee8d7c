import type { TrunkTree } from '../sweep/trunk-tree.js';

/** By node, the node at the top of its unbranched run: a run is named by it. */
export function topsOfRuns({ parent, children, first, count }: TrunkTree): Int32Array {
  const topOf = new Int32Array(count);
  parent.forEach((feeder, n) => {
    const siblings = (feeder < 0 ? first : (children[feeder] ?? [])).length;
    topOf[n] = siblings > 1 || feeder < 0 ? n : (topOf[feeder] ?? n);
  });
  return topOf;
}

/** How many places have each of so many ranks. */
class RankCounts {
  readonly of: Int32Array;

  constructor(ranks: number) {
    this.of = new Int32Array(ranks);
  }

  add(rank: number): void {
    this.of[rank] = (this.of[rank] ?? 0) + 1;
  }

  addAll(other: RankCounts | undefined): void {
    other?.of.forEach((count, rank) => (this.of[rank] = (this.of[rank] ?? 0) + count));
  }
}

/**
 * By the top of each run, the group of each rank as seen from above it: see ShortOrder. Takes time and memory for each rank of
 * each run.
 *
 * @param rankOf by place, as ShortOrder.rank
 */
export function groupsOfRuns(
  { parent, count }: TrunkTree,
  topOf: Int32Array,
  rankOf: Int32Array,
  ranks: number,
): ReadonlyMap<number, Int32Array> {
  const parts = rankOf.length / count;
  const tops = [...new Set(topOf)];
  const counts = () => new Map(tops.map((top) => [top, new RankCounts(ranks)]));
  const [own, below, above] = [counts(), counts(), counts()];
  rankOf.forEach((rank, place) => {
    if (rank >= 0) own.get(topOf[Math.floor(place / parts)] ?? 0)?.add(rank);
  });
  const feederOf = (top: number) => topOf[parent[top] ?? -1] ?? -1;
  // What feeds comes before what it feeds, in both lists.
  for (const top of tops.toReversed()) {
    below.get(top)?.addAll(own.get(top));
    below.get(feederOf(top))?.addAll(below.get(top));
  }
  const all = new RankCounts(ranks);
  for (const top of tops) {
    all.addAll(own.get(top));
    above.get(top)?.addAll(above.get(feederOf(top)));
    above.get(top)?.addAll(own.get(feederOf(top)));
  }
  return new Map(
    tops.map((top) => {
      const [inside, outside] = [below.get(top)?.of, above.get(top)?.of];
      const isBelow = all.of.map((_, rank) => ((inside?.[rank] ?? 0) > 0 ? 1 : 0));
      const isElsewhere = all.of.map((places, rank) =>
        places > (inside?.[rank] ?? 0) + (outside?.[rank] ?? 0) ? 1 : 0,
      );
      return [top, groupRanks(isBelow, isElsewhere)];
    }),
  );
}

/** The lowest rank of each group of those below that none elsewhere comes between; -1 for what is not below. */
function groupRanks(isBelow: Int32Array, isElsewhere: Int32Array): Int32Array {
  let open = -1;
  return isBelow.map((below, rank) => {
    if (below && (open < 0 || isElsewhere[rank])) open = rank;
    const group = below ? open : -1;
    if (isElsewhere[rank]) open = -1;
    return group;
  });
}
