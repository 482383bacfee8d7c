import {
  type AsBuilt,
  compareTrunks,
  type HeadEnd,
  MOST_NODES,
  type RecordTrunk,
} from './as-built.js';
import { checkFeeds, type FedRecordNode } from './as-built-feeds.js';
import {
  type GivenNode,
  headEndReaders,
  nodeFieldsThat,
  nodeReaders,
  trunkReaders,
} from './as-built-fields.js';
import { type Complaint, isObject, type Path, type Raw, readFields } from './read-fields.js';
import { withTypicalLengths } from './typical-lengths.js';

export type Checked = { asBuilt: AsBuilt; complaints: [] } | { complaints: Complaint[] };

/** In words where a node was given, for a complaint about another one. */
export type Where = (trunk: number, node: number) => string;

interface ReadTrunk {
  fields: Partial<Omit<RecordTrunk, 'nodes'>>;
  nodes: Partial<GivenNode>[];
  feeds: FedRecordNode[];
}

/**
 * All the rules of a drawing, whichever way it comes in: the record, or everything that is wrong
 * with it, each at its path into `{ headEnd, trunks: [{ trunk, name, port, nodes: […] }] }`.
 */
export function checkAsBuilt(raw: Raw, where: Where): Checked {
  const complaints: Complaint[] = [];
  const headEnd = readObject(raw['headEnd'], ['headEnd'], complaints);
  const fields = readFields(headEndReaders, headEnd, ['headEnd'], complaints);
  const trunks = readArray(raw['trunks'], ['trunks'], complaints).map((trunk, index) =>
    readTrunk(trunk, ['trunks', index], complaints),
  );
  complaints.push(...checkTrunks(trunks, where));
  if (complaints.length > 0) return { complaints };
  // Without a complaint every reader gave its value.
  const nodes = withTypicalLengths(trunks.map((trunk) => trunk.nodes as GivenNode[]));
  return {
    complaints: [],
    asBuilt: {
      headEnd: fields as HeadEnd,
      trunks: trunks
        .map((trunk, index) => ({ ...trunk.fields, nodes: nodes[index] }) as RecordTrunk)
        .sort(compareTrunks),
    },
  };
}

function readTrunk(value: unknown, path: Path, complaints: Complaint[]): ReadTrunk {
  const raw = readObject(value, path, complaints);
  const fields = readFields(trunkReaders, raw, path, complaints, ['nodes']);
  const nodes: Partial<GivenNode>[] = [];
  const feeds: FedRecordNode[] = [];
  readArray(raw['nodes'], [...path, 'nodes'], complaints).forEach((each, index) => {
    const nodePath = [...path, 'nodes', index];
    const rawNode = readObject(each, nodePath, complaints);
    const node: Partial<GivenNode> = readFields(nodeReaders, rawNode, nodePath, complaints);
    const implied = rawNode['fedFrom'] === undefined;
    // Left out, it is the node before, as in the locator's wire form.
    if (implied) node.fedFrom = index === 0 ? null : nodes[index - 1]?.node;
    nodes.push(node);
    feeds.push({ node: node.node, fedFrom: node.fedFrom, implied });
  });
  return { fields, nodes, feeds };
}

function checkTrunks(trunks: ReadTrunk[], where: Where): Complaint[] {
  const count = trunks.reduce((sum, { nodes }) => sum + nodes.length, 0);
  if (count > MOST_NODES) {
    return [
      { path: ['trunks'], reason: `${count} nodes are more than the ${MOST_NODES} of a site` },
    ];
  }
  const home = new Map<string, string>();
  for (const { fields, nodes } of trunks) {
    for (const { node } of nodes) if (node && fields.trunk) home.set(node, fields.trunk);
  }
  const trunkOf = (node: string) => home.get(node);
  const seen = new Set<string>();
  return trunks.flatMap((trunk, index) => {
    const path = ['trunks', index];
    const own = [
      ...checkStations(trunk, path),
      ...trunk.nodes.flatMap((node, nodeIndex) =>
        checkJunctionBox(node, [...path, 'nodes', nodeIndex]),
      ),
    ];
    const feeds = checkFeeds(trunk.feeds, (node) => where(index, node), trunkOf).map(
      ({ index: node, field, reason }) => ({ path: [...path, 'nodes', node, field], reason }),
    );
    const { trunk: code } = trunk.fields;
    if (code !== undefined && seen.has(code)) {
      own.push({ path: [...path, 'trunk'], reason: `trunk ${code} is there already` });
    }
    if (code !== undefined) seen.add(code);
    return [...own, ...feeds];
  });
}

function checkStations({ nodes }: ReadTrunk, path: Path): Complaint[] {
  if (nodes.some(({ kind }) => kind !== 'junction-box')) return [];
  return [{ path: [...path, 'nodes'], reason: 'a trunk has at least one station' }];
}

function checkJunctionBox(node: Partial<GivenNode>, path: Path): Complaint[] {
  if (node.kind !== 'junction-box') return [];
  return nodeFieldsThat('ofStations')
    .filter((field) => !isBlank(node[field]))
    .map((field) => ({
      path: [...path, field],
      reason: 'a junction box has no room and no unit',
    }));
}

function isBlank(value: string | number | boolean | string[] | null | undefined): boolean {
  return Array.isArray(value) ? value.length === 0 : (value ?? false) === false;
}

function readObject(value: unknown, path: Path, complaints: Complaint[]): Raw {
  if (isObject(value)) return value;
  complaints.push({ path, reason: value === undefined ? 'is missing' : 'must be an object' });
  return {};
}

function readArray(value: unknown, path: Path, complaints: Complaint[]): unknown[] {
  if (Array.isArray(value)) return value;
  complaints.push({ path, reason: value === undefined ? 'is missing' : 'must be a list' });
  return [];
}
