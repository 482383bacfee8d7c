import { isSameValue } from './as-built-compare.js';
import type { AsBuilt, RecordNode, RecordTrunk } from './as-built.js';

/** A trunk as the record keeps it. */
export type TrunkRow = Omit<RecordTrunk, 'nodes'>;

/** A node as the record keeps it: the list's order is a number, from 1. */
export interface NodeRow extends RecordNode {
  trunk: string;
  position: number;
}

/** What a change writes: the rows whose time ends with it and those that begin. */
export interface RowChange<Row> {
  ended: Row[];
  begun: Row[];
}

export function toTrunkRows({ trunks }: AsBuilt): TrunkRow[] {
  return trunks.map(({ nodes: _nodes, ...row }) => row);
}

export function toNodeRows({ trunks }: AsBuilt): NodeRow[] {
  return trunks.flatMap(({ trunk, nodes }) =>
    nodes.map((node, index) => ({ trunk, position: index + 1, ...node })),
  );
}

/** Puts the nodes, which come in order, on their trunks. */
export function toTrunks(trunkRows: TrunkRow[], nodeRows: NodeRow[]): RecordTrunk[] {
  const trunks = new Map(
    trunkRows.map((row) => [row.trunk, { ...row, nodes: [] as RecordNode[] }]),
  );
  for (const { trunk, position: _position, ...node } of nodeRows) {
    trunks.get(trunk)?.nodes.push(node);
  }
  return [...trunks.values()];
}

/** Only the rows that differ; a row that stays as it is goes on belonging to the new version too. */
export function changedRows<Row extends object>(
  before: Row[],
  after: Row[],
  keyOf: (row: Row) => string,
): RowChange<Row> {
  const old = new Map(before.map((row) => [keyOf(row), row]));
  const young = new Map(after.map((row) => [keyOf(row), row]));
  return {
    ended: before.filter((row) => !isSameRow(row, young.get(keyOf(row)))),
    begun: after.filter((row) => !isSameRow(row, old.get(keyOf(row)))),
  };
}

function isSameRow(row: object, other: object | undefined): boolean {
  if (other === undefined) return false;
  const values = new Map(Object.entries(other));
  return Object.entries(row).every(([field, value]) => isSameValue(values.get(field), value));
}
