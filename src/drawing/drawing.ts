import type { DrawnNode, DrawnTrunk, NodeKind } from './drawn-node.js';
import { type DrawnTree, treeOf } from './drawn-tree.js';

type Unnamed = Readonly<Record<NodeKind, (id: string) => string>>;

/** Who feeds whom on a site, asked by id. Built once, in time linear in the nodes; what is not drawn is undefined or empty. */
export class Drawing<Node extends DrawnNode = DrawnNode> {
  private readonly trees: ReadonlyMap<string, DrawnTree<Node>>;
  private readonly nodes: ReadonlyMap<string, ReadonlyMap<string, Node>>;

  /** @param trunks with feeds that form no ring: what hangs on one is known by nodeAt alone */
  constructor(trunks: readonly DrawnTrunk<Node>[]) {
    this.trees = new Map(trunks.map((trunk) => [trunk.id, treeOf(trunk)]));
    this.nodes = new Map(
      trunks.map(({ id, nodes }) => [id, new Map(nodes.map((node) => [node.id, node]))]),
    );
  }

  treeOf(trunk: string): DrawnTree<Node> | undefined {
    return this.trees.get(trunk);
  }

  nodeAt(trunk: string, node: string): Node | undefined {
    return this.nodes.get(trunk)?.get(node);
  }

  /** From the first node of the trunk to this one, both with it; empty for the port (null). */
  pathTo(trunk: string, node: string | null): Node[] {
    const tree = this.trees.get(trunk);
    if (!tree || node === null) return [];
    const path: Node[] = [];
    for (let n = tree.position.get(node) ?? -1; n >= 0; n = tree.parent[n] ?? -1) {
      const at = tree.nodes[n];
      if (at) path.push(at);
    }
    return path.reverse();
  }

  /** Everything fed through a node, each after the node that feeds it; all of the trunk for the port (null). */
  below(trunk: string, node: string | null): Node[] {
    const tree = this.trees.get(trunk);
    if (!tree) return [];
    const found = [...(node === null ? tree.first : childrenOf(tree, node))];
    for (const n of found) for (const child of tree.children[n] ?? []) found.push(child);
    return found.flatMap((n) => tree.nodes[n] ?? []);
  }

  /** The nodes fed from this one, or from the port (null), in the order of the list. */
  fedBy(trunk: string, node: string | null): Node[] {
    const tree = this.trees.get(trunk);
    if (!tree) return [];
    const fed = new Set(
      (node === null ? tree.first : childrenOf(tree, node)).map((n) => tree.nodeIds[n]),
    );
    if (fed.size < 2) return [...fed].flatMap((id) => this.nodeAt(trunk, id ?? '') ?? []);
    return [...(this.nodes.get(trunk)?.values() ?? [])].filter(({ id }) => fed.has(id));
  }

  /** What people call a node; `unnamed`: what is said of one without a name, by its id. */
  nameOf(trunk: string, node: string, unnamed: Unnamed): string {
    const drawn = this.nodeAt(trunk, node);
    return drawn === undefined ? node : (drawn.name ?? unnamed[drawn.kind](node));
  }
}

function childrenOf(tree: DrawnTree, node: string): readonly number[] {
  return tree.children[tree.position.get(node) ?? -1] ?? [];
}
