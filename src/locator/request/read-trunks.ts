import type { JsonReader } from './json-reader.js';
import { MAX_CABLE_METRES, MAX_EXPOSURE_DAYS, MAX_GROUPS, MAX_NODES } from './limits.js';
import { NODE_KINDS } from '../../drawing/drawn-node.js';
import type { RequestNode, RequestTrunk } from './locate-request.js';

const NODE_FIELDS = [
  'id',
  'kind',
  'fedFrom',
  'cableMetres',
  'exposureDays',
  'groups',
  'isOut',
  'lacks',
];

/** What a node says of its station, where it says anything. */
function readStation(
  reader: JsonReader,
  { kind, groups, isOut, lacks }: Record<string, unknown>,
  at: string,
): Pick<RequestNode, 'groups' | 'isOut' | 'lacks'> {
  const read: Pick<RequestNode, 'groups' | 'isOut' | 'lacks'> = {};
  if (groups !== undefined)
    read.groups = reader.distinct(groups, `${at}/groups`, MAX_GROUPS, (group, where) =>
      reader.id(group, where),
    );
  const { functions } = reader.plan;
  if (lacks !== undefined)
    read.lacks = reader.distinct(lacks, `${at}/lacks`, functions.length, (name, where) =>
      reader.oneOf(name, where, functions),
    );
  if (typeof isOut === 'boolean') read.isOut = isOut;
  else if (isOut !== undefined) reader.error(`${at}/isOut`, 'must be true or false');
  if (kind === 'junction-box' && (read.isOut || (read.lacks?.length ?? 0) > 0))
    reader.error(
      `${at}/${read.isOut ? 'isOut' : 'lacks'}`,
      'is said of a junction box: no unit there',
    );
  return read;
}

function readNode(reader: JsonReader, value: unknown, at: string): RequestNode | undefined {
  const fields = reader.object(value, at, NODE_FIELDS);
  if (!fields) return undefined;
  const id = reader.id(fields.id, `${at}/id`);
  const kind = reader.oneOf(fields.kind, `${at}/kind`, NODE_KINDS);
  const cableMetres = reader.number(fields.cableMetres, `${at}/cableMetres`, 0, MAX_CABLE_METRES);
  const fedFrom =
    fields.fedFrom === undefined || fields.fedFrom === null
      ? fields.fedFrom
      : reader.id(fields.fedFrom, `${at}/fedFrom`);
  const exposureDays =
    fields.exposureDays === undefined
      ? undefined
      : reader.number(fields.exposureDays, `${at}/exposureDays`, 0, MAX_EXPOSURE_DAYS);
  const station = readStation(reader, fields, at);
  if (id === undefined || kind === undefined || cableMetres === undefined) return undefined;
  return { id, kind, fedFrom, cableMetres, exposureDays, ...station };
}

/** Names each node that is fed from itself through others; a node that is merely below such a ring is not named. */
function checkRings(reader: JsonReader, nodes: readonly RequestNode[], at: string): void {
  const position = new Map(nodes.map((node, n) => [node.id, n]));
  const state = new Uint8Array(nodes.length); // 0 not seen, 1 on the way, 2 done
  for (let first = 0; first < nodes.length; first++) {
    const way: number[] = [];
    let n: number | undefined = first;
    while (n !== undefined && state[n] === 0) {
      state[n] = 1;
      way.push(n);
      n = feederPosition(nodes, n, position);
    }
    if (n !== undefined && state[n] === 1)
      for (const member of way.slice(way.indexOf(n)).sort((a, b) => a - b))
        reader.error(`${at}/nodes/${member}/fedFrom`, 'is fed from itself: the feeds form a ring');
    for (const done of way) state[done] = 2;
  }
}

function feederPosition(
  nodes: readonly RequestNode[],
  n: number,
  position: ReadonlyMap<string, number>,
): number | undefined {
  const fedFrom = nodes[n]?.fedFrom;
  if (fedFrom === undefined) return n === 0 ? undefined : n - 1;
  return fedFrom === null ? undefined : position.get(fedFrom);
}

function checkNodes(reader: JsonReader, nodes: readonly RequestNode[], at: string): void {
  const seen = new Set<string>();
  nodes.forEach((node, n) => {
    if (seen.has(node.id)) reader.error(`${at}/nodes/${n}/id`, `"${node.id}" is already a node`);
    seen.add(node.id);
  });
  nodes.forEach(({ fedFrom }, n) => {
    if (typeof fedFrom === 'string' && !seen.has(fedFrom))
      reader.error(`${at}/nodes/${n}/fedFrom`, `"${fedFrom}" is not a node of this trunk`);
  });
  if (seen.size === nodes.length) checkRings(reader, nodes, at);
}

function readTrunk(reader: JsonReader, value: unknown, at: string): RequestTrunk | undefined {
  const fields = reader.object(value, at, ['id', 'nodes']);
  if (!fields) return undefined;
  const id = reader.id(fields.id, `${at}/id`);
  const list = reader.array(fields.nodes, `${at}/nodes`, MAX_NODES, 1);
  const nodes = list?.map((node, n) => readNode(reader, node, `${at}/nodes/${n}`));
  if (id === undefined || !nodes) return undefined;
  const read = nodes.filter((node) => node !== undefined);
  // Who feeds whom can be judged only when every node could be read.
  if (read.length < nodes.length) return undefined;
  checkNodes(reader, read, at);
  return { id, nodes: read };
}

/** The groups of all trunks; too many of them are an error. */
export function readGroups(
  reader: JsonReader,
  trunks: readonly RequestTrunk[] = [],
): ReadonlySet<string> {
  const named = new Set(trunks.flatMap(({ nodes }) => nodes.flatMap(({ groups = [] }) => groups)));
  if (named.size > MAX_GROUPS)
    reader.error('/trunks', `at most ${MAX_GROUPS} groups are allowed in all`);
  return named;
}

/** Trunks of the wire form; undefined when any could not be read at all. */
export function readTrunks(reader: JsonReader, value: unknown): RequestTrunk[] | undefined {
  const list = reader.array(value, '/trunks', MAX_NODES, 1);
  const trunks = list?.map((trunk, t) => readTrunk(reader, trunk, `/trunks/${t}`));
  const read = trunks?.filter((trunk) => trunk !== undefined) ?? [];
  const seen = new Set<string>();
  trunks?.forEach((trunk, t) => {
    if (!trunk) return;
    if (seen.has(trunk.id)) reader.error(`/trunks/${t}/id`, `"${trunk.id}" is already a trunk`);
    seen.add(trunk.id);
  });
  if (read.reduce((count, trunk) => count + trunk.nodes.length, 0) > MAX_NODES)
    reader.error('/trunks', `at most ${MAX_NODES} nodes are allowed in all`);
  return trunks && read.length === trunks.length ? read : undefined;
}
