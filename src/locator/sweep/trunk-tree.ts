import { feederIds } from '../request/feeder-ids.js';
import type { RequestTrunk } from '../request/locate-request.js';

/** A trunk as a rooted tree in arrays; every node comes after the node that feeds it. */
export interface TrunkTree {
  readonly id: string;
  readonly count: number;
  readonly nodeIds: readonly string[];
  readonly isStation: readonly boolean[];
  /** The node that feeds each; -1 is the port. */
  readonly parent: Int32Array;
  /** The nodes that each one feeds, by id. */
  readonly children: readonly (readonly number[])[];
  /** The nodes fed from the port, by id. */
  readonly first: readonly number[];
  readonly cableMetres: Float64Array;
  /** Years since the span and the station were last proven good. */
  readonly years: Float64Array;
}

const DAYS_PER_YEAR = 365.25;

/** Node ids, each after the one that feeds it. Siblings go by id, so that the order of the request does not show. */
function topDown(feeders: ReadonlyMap<string, string | null>): string[] {
  const fed = new Map<string | null, string[]>();
  for (const [id, feeder] of feeders) {
    const siblings = fed.get(feeder);
    if (siblings) siblings.push(id);
    else fed.set(feeder, [id]);
  }
  for (const siblings of fed.values()) siblings.sort(compareIds);
  const order = [...(fed.get(null) ?? [])];
  for (const id of order) order.push(...(fed.get(id) ?? []));
  return order;
}

/** Plain code-unit order: the same on every machine. */
export function compareIds(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** The tree of a checked trunk. `exposureDays` is the request's, for nodes that carry none. */
export function trunkTree(trunk: RequestTrunk, exposureDays: number): TrunkTree {
  const feeders = feederIds(trunk);
  const nodeIds = topDown(feeders);
  const position = new Map(nodeIds.map((id, n) => [id, n]));
  const byId = new Map(trunk.nodes.map((node) => [node.id, node]));
  const nodes = nodeIds.flatMap((id) => byId.get(id) ?? []);
  const parent = Int32Array.from(nodeIds, (id) => position.get(feeders.get(id) ?? '') ?? -1);
  const children: number[][] = nodeIds.map(() => []);
  const first: number[] = [];
  parent.forEach((feeder, n) => (children[feeder] ?? first).push(n));
  return {
    id: trunk.id,
    count: nodes.length,
    nodeIds,
    isStation: nodes.map((node) => node.kind === 'station'),
    parent,
    children,
    first,
    cableMetres: Float64Array.from(nodes, (node) => node.cableMetres),
    years: Float64Array.from(nodes, (node) => (node.exposureDays ?? exposureDays) / DAYS_PER_YEAR),
  };
}
