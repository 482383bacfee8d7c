import { Drawing } from '../drawing/drawing.js';
import type { DrawnNode } from '../drawing/drawn-node.js';
import type { LocateRequest } from '../locator/index.js';
import type { RecordNode } from './as-built.js';

/** The as-built record as far as who feeds whom goes. */
export interface DrawnRecord {
  trunks: DrawnRecordTrunk[];
}

export interface DrawnRecordTrunk {
  trunk: string;
  nodes: DrawnRecordNode[];
}

type DrawnRecordNode = Pick<RecordNode, 'node' | 'kind' | 'fedFrom' | 'cableMetres' | 'room'>;

/** Names a node as people do: by its room where it has one. */
export type NameNode = (trunk: string, node: string) => string;

/** A record that was asked about is not changed any more. */
const drawings = new WeakMap<DrawnRecord, Drawing<DrawnRecordNode & DrawnNode>>();

/** Who feeds whom by a record; laid out when it is first asked for. */
export function drawingOf(record: DrawnRecord): Drawing<DrawnRecordNode & DrawnNode> {
  const known = drawings.get(record);
  if (known !== undefined) return known;
  const drawing = new Drawing(
    record.trunks.map(({ trunk, nodes }) => ({
      id: trunk,
      nodes: nodes.map((node) => ({ ...node, id: node.node, name: node.room })),
    })),
  );
  drawings.set(record, drawing);
  return drawing;
}

export function findNode(
  record: DrawnRecord,
  trunk: string,
  node: string,
): DrawnRecordNode | undefined {
  return drawingOf(record).nodeAt(trunk, node);
}

export function nameNodesOf(record: DrawnRecord): NameNode {
  const drawing = drawingOf(record);
  return (trunk, node) => drawing.nameOf(trunk, node);
}

/** The drawing in the locator's wire form. */
export function trunksOf({ trunks }: DrawnRecord): LocateRequest['trunks'] {
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
