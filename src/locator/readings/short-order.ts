import type { TrunkTree } from '../sweep/trunk-tree.js';
import { groupsOfRuns, topsOfRuns } from './short-groups.js';

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
   * farther ones, or where they are in one step.
   */
  readonly rank: Int32Array;
  /**
   * The group of a rank as seen from the span into a node: the lowest of the ranks in its subtree that nothing outside
   * could come between. Nothing on the way up can tell places of one group apart.
   */
  readonly groupOf: (node: number, rank: number) => number;
}

/** The same before it is known in how many steps it is told. */
export interface RankedShorts {
  /** How many are told apart where none share a step. */
  readonly ranks: number;
  /**
   * In so many steps of about as many ranks each, where there are more: two shorts in one step are equally near.
   */
  readonly inSteps: (most: number) => ShortOrder;
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

export function rankShorts(tree: TrunkTree, canShort: CanShort, excessOf: ExcessOf): RankedShorts {
  const sites = rankSites(tree, canShort, excessOf);
  const excess = new Float64Array(tree.count * PARTS);
  let ranks = 0;
  const ranked = sites.map((site, i) => {
    const before = sites[i - 1];
    if (!before || !hasSameRank(before, site)) ranks++;
    excess[site.at] = site.excess;
    return { at: site.at, rank: ranks - 1 };
  });
  const topOf = topsOfRuns(tree);
  const inSteps = (most: number) => {
    const steps = Math.min(ranks, most);
    const rank = new Int32Array(tree.count * PARTS).fill(-1);
    for (const { at, rank: own } of ranked) rank[at] = Math.floor((own * steps) / ranks);
    const groups = groupsOfRuns(tree, topOf, rank, steps);
    const groupOf = (node: number, of: number) => groups.get(topOf[node] ?? node)?.[of] ?? -1;
    return { excess, rank, groupOf };
  };
  return { ranks, inSteps };
}
