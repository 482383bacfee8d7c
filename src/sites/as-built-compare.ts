import type { NodeKind } from '../drawing/drawn-node.js';
import type { AsBuilt, RecordNode, RecordTrunk } from './as-built.js';

type FieldValue = string | number | boolean | string[] | null;

/** One field that differs, as it was and as it is. */
interface FieldChange {
  field: string;
  before: FieldValue;
  after: FieldValue;
}

interface TrunkChange {
  trunk: string;
  fields: FieldChange[];
}

/** A node that came or went. */
interface NodeName {
  trunk: string;
  node: string;
  kind: NodeKind;
  room: string | null;
  isLengthGuessed: boolean;
}

interface NodeChange {
  trunk: string;
  node: string;
  fields: FieldChange[];
}

/** What differs between two versions of a record; all lists empty: nothing does. */
export interface Comparison {
  headEnd: FieldChange[];
  trunksAdded: string[];
  trunksRemoved: string[];
  trunksChanged: TrunkChange[];
  nodesAdded: NodeName[];
  nodesRemoved: NodeName[];
  nodesChanged: NodeChange[];
}

export function compareAsBuilt(before: AsBuilt, after: AsBuilt): Comparison {
  const old = new Map(before.trunks.map((trunk) => [trunk.trunk, trunk]));
  const young = new Map(after.trunks.map((trunk) => [trunk.trunk, trunk]));
  const comparison: Comparison = {
    headEnd: changedFields({ ...before.headEnd }, { ...after.headEnd }),
    trunksAdded: after.trunks.filter(({ trunk }) => !old.has(trunk)).map(({ trunk }) => trunk),
    trunksRemoved: before.trunks.filter(({ trunk }) => !young.has(trunk)).map(({ trunk }) => trunk),
    trunksChanged: [],
    nodesAdded: [],
    nodesRemoved: [],
    nodesChanged: [],
  };
  for (const trunk of before.trunks) {
    compareTrunk(trunk, young.get(trunk.trunk) ?? { ...trunk, nodes: [] }, comparison);
  }
  for (const trunk of after.trunks) {
    if (!old.has(trunk.trunk)) compareTrunk({ ...trunk, nodes: [] }, trunk, comparison);
  }
  return comparison;
}

export function isSame(comparison: Comparison): boolean {
  return Object.values(comparison).every((list: unknown[]) => list.length === 0);
}

function compareTrunk(before: RecordTrunk, after: RecordTrunk, comparison: Comparison): void {
  const { trunk } = before;
  const name = ({ node, kind, room, isLengthGuessed }: RecordNode): NodeName => ({
    trunk,
    node,
    kind,
    room,
    isLengthGuessed,
  });
  const old = new Map(before.nodes.map((node) => [node.node, node]));
  const young = new Map(after.nodes.map((node) => [node.node, node]));
  comparison.nodesAdded.push(...after.nodes.filter(({ node }) => !old.has(node)).map(name));
  comparison.nodesRemoved.push(...before.nodes.filter(({ node }) => !young.has(node)).map(name));

  const { nodes: _old, ...ownBefore } = before;
  const { nodes: _young, ...ownAfter } = after;
  const fields = changedFields(ownBefore, ownAfter);
  if (fields.length > 0) comparison.trunksChanged.push({ trunk, fields });

  const stayed = after.nodes.filter(({ node }) => old.has(node));
  const placeBefore = placesIn(before, (node) => young.has(node));
  stayed.forEach((node, place) => {
    const changes = changedFields({ ...old.get(node.node) }, { ...node });
    const was = placeBefore.get(node.node);
    // Among those that stayed: a node put in between does not move all that follow it.
    if (was !== undefined && was !== place) {
      changes.push({ field: 'order', before: was + 1, after: place + 1 });
    }
    if (changes.length > 0) {
      comparison.nodesChanged.push({ trunk, node: node.node, fields: changes });
    }
  });
}

function placesIn({ nodes }: RecordTrunk, stays: (node: string) => boolean): Map<string, number> {
  const codes = nodes.map(({ node }) => node).filter(stays);
  return new Map(codes.map((node, place) => [node, place]));
}

type Plain = Record<string, FieldValue>;

function changedFields(before: Plain, after: Plain): FieldChange[] {
  return Object.keys(after)
    .map((field) => ({ field, before: before[field] ?? null, after: after[field] ?? null }))
    .filter((change) => !isSameValue(change.before, change.after));
}

/** Lists are the same by what is in them. */
export function isSameValue(one: unknown, other: unknown): boolean {
  if (!Array.isArray(one) || !Array.isArray(other)) return one === other;
  return one.length === other.length && one.every((each, index) => each === other[index]);
}
