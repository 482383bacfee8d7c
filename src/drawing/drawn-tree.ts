import type { DrawnNode, DrawnTrunk } from './drawn-node.js';

/** A trunk as a rooted tree in arrays; every node comes after the node that feeds it. */
export interface DrawnTree<Node extends DrawnNode = DrawnNode> {
  readonly id: string;
  readonly count: number;
  readonly nodes: readonly Node[];
  readonly nodeIds: readonly string[];
  readonly position: ReadonlyMap<string, number>;
  /** The node that feeds each; -1 is the port. */
  readonly parent: Int32Array;
  /** The nodes that each one feeds, by id. */
  readonly children: readonly (readonly number[])[];
  /** The nodes fed from the port, by id. */
  readonly first: readonly number[];
}

/** Plain code-unit order: the same on every machine. */
export function compareIds(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/**
 * Siblings go by id, so that the order of the list does not show. Of nodes with one id the first counts; nodes on or
 * behind a ring of feeds are left out.
 */
export function treeOf<Node extends DrawnNode>({
  id,
  nodes: drawn,
}: DrawnTrunk<Node>): DrawnTree<Node> {
  const fed = new Map<string | null, Node[]>();
  const feederOf = new Map<string, string | null>();
  drawn.forEach((node, n) => {
    if (feederOf.has(node.id)) return;
    const feeder = node.fedFrom === undefined ? (drawn[n - 1]?.id ?? null) : node.fedFrom;
    feederOf.set(node.id, feeder);
    const siblings = fed.get(feeder);
    if (siblings) siblings.push(node);
    else fed.set(feeder, [node]);
  });
  for (const siblings of fed.values()) siblings.sort((a, b) => compareIds(a.id, b.id));
  const nodes = [...(fed.get(null) ?? [])];
  for (const node of nodes) for (const next of fed.get(node.id) ?? []) nodes.push(next);
  const position = new Map(nodes.map((node, n) => [node.id, n]));
  const parent = Int32Array.from(nodes, (node) => position.get(feederOf.get(node.id) ?? '') ?? -1);
  const children: number[][] = nodes.map(() => []);
  const first: number[] = [];
  parent.forEach((feeder, n) => (children[feeder] ?? first).push(n));
  const nodeIds = nodes.map((node) => node.id);
  return { id, count: nodes.length, nodes, nodeIds, position, parent, children, first };
}
