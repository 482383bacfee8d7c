/** Where a fault can be mended: a span (its two junctions and its cable), a station, a port, the head-end. */
export type Place =
  | { kind: 'span'; trunk: string; from: string | null; to: string }
  | { kind: 'station'; trunk: string; node: string }
  | { kind: 'port'; trunk: string }
  | { kind: 'head-end' };

export const NODE_KINDS = ['station', 'junction-box'] as const;

export type NodeKind = (typeof NODE_KINDS)[number];

export interface DrawnNode {
  readonly id: string;
  readonly kind: NodeKind;
  /** The node that feeds this one; null for the head-end's port; left out: the node before it in the list. */
  readonly fedFrom?: string | null;
  readonly cableMetres: number;
  /** What people call it; left out: its kind and id. */
  readonly name?: string | null;
}

export interface DrawnTrunk<Node extends DrawnNode = DrawnNode> {
  readonly id: string;
  readonly nodes: readonly Node[];
}
