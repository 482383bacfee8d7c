import type { LocateRequest } from '../locator/index.js';
import type { RecordNode } from './as-built.js';

/** The as-built record as far as the rules of this folder read it. */
export interface Drawing {
  trunks: DrawingTrunk[];
}

export interface DrawingTrunk {
  trunk: string;
  nodes: DrawingNode[];
}

export type DrawingNode = Pick<RecordNode, 'node' | 'kind' | 'fedFrom' | 'cableMetres' | 'room'>;

/** Names a node as people do: by its room where it has one. */
export type NameNode = (trunk: string, node: string) => string;

export function findNode(drawing: Drawing, trunk: string, node: string): DrawingNode | undefined {
  const drawn = drawing.trunks.find((one) => one.trunk === trunk);
  return drawn?.nodes.find((one) => one.node === node);
}

export function nameNodesOf(drawing: Drawing): NameNode {
  const names = new Map<string, string>();
  for (const { trunk, nodes } of drawing.trunks) {
    for (const { node, kind, room } of nodes) {
      const plain = kind === 'station' ? `station ${node}` : `junction box ${node}`;
      names.set(JSON.stringify([trunk, node]), room ?? plain);
    }
  }
  return (trunk, node) => names.get(JSON.stringify([trunk, node])) ?? node;
}

/** The drawing in the locator's wire form. */
export function trunksOf({ trunks }: Drawing): LocateRequest['trunks'] {
  return trunks.map(({ trunk, nodes }) => ({
    id: trunk,
    nodes: nodes.map(({ node, kind, fedFrom, cableMetres }) => ({
      id: node,
      kind,
      fedFrom,
      cableMetres,
    })),
  }));
}
