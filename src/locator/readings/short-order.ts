import type { TrunkTree } from '../sweep/trunk-tree.js';

/** Where a short of one core can be, by node: its span's three components from the top down, and its station. */
export const PARTS = 4;
export const JUNCTION_OUT = 0;
export const CABLE = 1;
export const JUNCTION_IN = 2;
export const STATION = 3;

/**
 * The places of a short of one core in the order in which the head-end meets them, as far as readings can tell. A place
 * is at node * PARTS + part.
 */
export interface ShortOrder {
  /** As loopExcess gives it; 0 where it is next to nothing. */
  readonly excess: Float64Array;
  /**
   * Rank of each place; -1 where there can be no short. Two cables of different branches compare by their middles, of
   * equal middles the shorter is the nearer. Neighbours in this order share a rank if no reading tells them from
   * farther ones.
   */
  readonly rank: Int32Array;
  /**
   * The group of a rank as seen from the span into a node: the lowest of the ranks in its subtree that nothing outside
   * could come between. Nothing on the way up can tell places of one group apart.
   */
  readonly groupOf: (node: number, rank: number) => number;
}

/** So much less than the flat shares that it changes no digit. */
const NEGLIGIBLE = 1e-18;

interface Site {
  readonly at: number;
  readonly middle: number;
  readonly length: number;
  readonly excess: number;
}

/** Metres of cable from the port to each node. */
export function metresFromPort({ parent, cableMetres }: TrunkTree): Float64Array {
  const metres = new Float64Array(parent.length);
  parent.forEach((feeder, n) => {
    metres[n] = (feeder < 0 ? 0 : (metres[feeder] ?? 0)) + (cableMetres[n] ?? 0);
  });
  return metres;
}

type CanShort = (node: number, part: number) => boolean;
type ExcessOf = (lowMetres: number, highMetres: number) => number;

/** Calls `see` with each place that can have a short: from where to where it may be, in metres from the port. */
function eachPlace(
  tree: TrunkTree,
  canShort: CanShort,
  see: (at: number, lowMetres: number, highMetres: number) => void,
): void {
  const metres = metresFromPort(tree);
  for (let n = 0; n < tree.count; n++) {
    const feeder = tree.parent[n] ?? -1;
    const low = feeder < 0 ? 0 : (metres[feeder] ?? 0);
    const high = metres[n] ?? 0;
    for (let part = 0; part < PARTS; part++)
      if (canShort(n, part))
        see(n * PARTS + part, part > CABLE ? high : low, part < CABLE ? low : high);
  }
}

const notNegligible = (excess: number) => (excess < NEGLIGIBLE ? 0 : excess);

/** ShortOrder.excess, of a trunk in a row: no order is asked for there. */
export function shortExcess(tree: TrunkTree, canShort: CanShort, excessOf: ExcessOf): Float64Array {
  const excess = new Float64Array(tree.count * PARTS);
  eachPlace(tree, canShort, (at, low, high) => {
    excess[at] = notNegligible(excessOf(low, high));
  });
  return excess;
}

/** Places that can have a short, by their ranks. */
function rankSites(tree: TrunkTree, canShort: CanShort, excessOf: ExcessOf): Site[] {
  const sites: Site[] = [];
  eachPlace(tree, canShort, (at, low, high) => {
    const excess = notNegligible(excessOf(low, high));
    sites.push({ at, middle: low + (high - low) / 2, length: high - low, excess });
  });
  return sites.sort((a, b) => a.middle - b.middle || a.length - b.length || a.at - b.at);
}

function hasSameRank(a: Site, b: Site): boolean {
  if (a.excess === 0 || b.excess === 0) return a.excess === b.excess;
  return a.middle === b.middle && a.length === b.length;
}

/** First and last position of each node's subtree in a walk that finishes a branch before it starts the next. */
function subtreeBounds({ parent, children, count, first }: TrunkTree) {
  const sizes = new Int32Array(count).fill(1);
  for (let n = count - 1; n >= 0; n--) {
    const feeder = parent[n] ?? -1;
    if (feeder >= 0) sizes[feeder] = (sizes[feeder] ?? 0) + (sizes[n] ?? 0);
  }
  const start = new Int32Array(count);
  const place = (nodes: readonly number[], from: number) => {
    let next = from;
    for (const n of nodes) {
      start[n] = next;
      next += sizes[n] ?? 0;
    }
  };
  place(first, 0);
  for (let n = 0; n < count; n++) place(children[n] ?? [], (start[n] ?? 0) + 1);
  return { start, sizes };
}

/** By unbranched run: the group of each rank. A run is named by the node at its top. */
function groupsOfRun(
  top: number,
  { parent }: TrunkTree,
  { start, sizes }: ReturnType<typeof subtreeBounds>,
  ranked: readonly { node: number; rank: number }[],
  ranks: number,
): Int32Array {
  const isBelow = new Uint8Array(ranks);
  const isElsewhere = new Uint8Array(ranks);
  const above = new Set<number>();
  for (let n = parent[top] ?? -1; n >= 0; n = parent[n] ?? -1) above.add(n);
  const from = start[top] ?? 0;
  const end = from + (sizes[top] ?? 0);
  for (const { node, rank } of ranked) {
    const at = start[node] ?? 0;
    if (at >= from && at < end) isBelow[rank] = 1;
    else if (!above.has(node)) isElsewhere[rank] = 1;
  }
  return groupRanks(isBelow, isElsewhere);
}

/** The lowest rank of each group of those below that none elsewhere comes between; -1 for what is not below. */
function groupRanks(isBelow: Uint8Array, isElsewhere: Uint8Array): Int32Array {
  let open = -1;
  return Int32Array.from(isBelow, (below, rank) => {
    if (below && (open < 0 || isElsewhere[rank])) open = rank;
    const group = below ? open : -1;
    if (isElsewhere[rank]) open = -1;
    return group;
  });
}

export function shortOrder(tree: TrunkTree, canShort: CanShort, excessOf: ExcessOf): ShortOrder {
  const sites = rankSites(tree, canShort, excessOf);
  const excess = new Float64Array(tree.count * PARTS);
  const rank = new Int32Array(tree.count * PARTS).fill(-1);
  let ranks = 0;
  const ranked = sites.map((site, i) => {
    const before = sites[i - 1];
    if (!before || !hasSameRank(before, site)) ranks++;
    excess[site.at] = site.excess;
    rank[site.at] = ranks - 1;
    return { node: Math.floor(site.at / PARTS), rank: ranks - 1 };
  });
  const topOf = new Int32Array(tree.count);
  tree.parent.forEach((feeder, n) => {
    const siblings = (feeder < 0 ? tree.first : (tree.children[feeder] ?? [])).length;
    topOf[n] = siblings > 1 || feeder < 0 ? n : (topOf[feeder] ?? n);
  });
  const bounds = subtreeBounds(tree);
  const groups = new Map<number, Int32Array>();
  const groupOf = (node: number, of: number) => {
    const top = topOf[node] ?? node;
    const known = groups.get(top) ?? groupsOfRun(top, tree, bounds, ranked, ranks);
    groups.set(top, known);
    return known[of] ?? -1;
  };
  return { excess, rank, groupOf };
}
