import { Drawing } from '../drawing/drawing.js';
import type { DrawnNode } from '../drawing/drawn-node.js';
import type { FunctionName, LocateRequest } from '../locator/index.js';
import { MAX_GROUPS } from '../plan/modes.js';
import type { NameNode, Words } from '../words/index.js';
import type { RecordNode } from './as-built.js';

/** The as-built record as far as who feeds whom goes. */
export interface DrawnRecord {
  trunks: DrawnRecordTrunk[];
}

export interface DrawnRecordTrunk {
  trunk: string;
  nodes: DrawnRecordNode[];
}

type DrawnRecordNode = Pick<RecordNode, 'node' | 'kind' | 'fedFrom' | 'cableMetres' | 'room'> &
  Partial<Pick<RecordNode, 'groups' | 'isOut' | 'lacks'>>;

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

/** Whether a function can be told of there: a unit that is out, or was never fitted with it, says nothing. */
export function speaks(
  { kind, isOut = false, lacks = [] }: DrawnRecordNode,
  name: FunctionName,
): boolean {
  return kind === 'station' && !isOut && !lacks.includes(name);
}

/** Names nodes as people do: by their rooms where they have one. */
export function nameNodesOf(record: DrawnRecord, { unnamed }: Pick<Words, 'unnamed'>): NameNode {
  const drawing = drawingOf(record);
  return (trunk, node) => drawing.nameOf(trunk, node, unnamed);
}

/** The drawing in the locator's wire form. Of more groups than it takes, those of the most stations. */
export function trunksOf({ trunks }: DrawnRecord): LocateRequest['trunks'] {
  const largest = largestGroups(trunks);
  return trunks.map(({ trunk, nodes }) => ({
    id: trunk,
    nodes: nodes.map(({ node, kind, fedFrom, cableMetres, groups = [], isOut, lacks = [] }) => ({
      id: node,
      kind,
      fedFrom,
      cableMetres,
      ...(groups.some((group) => largest.has(group)) && {
        groups: groups.filter((group) => largest.has(group)),
      }),
      ...(isOut === true && { isOut }),
      ...(lacks.length > 0 && { lacks }),
    })),
  }));
}

function largestGroups(trunks: readonly DrawnRecordTrunk[]): ReadonlySet<string> {
  const stations = new Map<string, number>();
  for (const { nodes } of trunks)
    for (const { groups = [] } of nodes)
      for (const group of groups) stations.set(group, (stations.get(group) ?? 0) + 1);
  const named = [...stations].sort(([a, of], [b, most]) => most - of || compareText(a, b));
  return new Set(named.slice(0, MAX_GROUPS).map(([group]) => group));
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : 1;
}
