import { blankNode } from '#app/sites/as-built-fields.js';
import {
  type AsBuilt,
  NOTHING_DRAWN,
  type RecordNode,
  type RecordTrunk,
} from '#app/sites/as-built.js';
import { between, pick, type Random } from '../accuracy/site.js';

/** Rooms on one floor before the cable goes up. */
const ROOMS_ON_A_FLOOR = 8;

/**
 * One site of the firm: 8 to 36 rooms on one to three trunks, every third trunk with tees, 3 to 40 m of cable a span, a
 * floor for every eight rooms; at every other site the floors are groups.
 */
export function drawFirmSite(random: Random): AsBuilt {
  const rooms = between(8, 36, random);
  const count = between(1, Math.min(3, Math.floor(rooms / 6)), random);
  const hasGroups = random() < 0.5;
  const trunks = Array.from({ length: count }, (_, t): RecordTrunk => {
    const trunk = 'ABC'[t]!;
    const share = Math.floor(rooms / count) + (t < rooms % count ? 1 : 0);
    return { trunk, name: trunk, port: null, nodes: drawNodes(trunk, share, hasGroups, random) };
  });
  return { ...NOTHING_DRAWN, trunks };
}

function drawNodes(trunk: string, rooms: number, hasGroups: boolean, random: Random): RecordNode[] {
  const isTeed = random() < 1 / 3;
  const nodes: RecordNode[] = [];
  const add = (kind: RecordNode['kind'], fedFrom: string | null) => {
    const node = `${kind === 'station' ? trunk : `${trunk}x`}${nodes.length + 1}`;
    const floor = Math.floor(nodes.length / ROOMS_ON_A_FLOOR);
    nodes.push({
      ...blankNode(node, Math.round(30 + random() * 370) / 10),
      kind,
      fedFrom,
      room: kind === 'station' ? `Room ${node}` : null,
      floor: String(floor),
      groups: hasGroups && kind === 'station' ? [`floor ${floor}`] : [],
    });
    return node;
  };
  for (let room = 0; room < rooms; room++) {
    let feeder = nodes.at(-1)?.node ?? null;
    if (isTeed && random() < 0.15 && nodes.length > 0) feeder = pick(nodes, random).node;
    if (isTeed && random() < 0.1) feeder = add('junction-box', feeder);
    add('station', feeder);
  }
  return nodes;
}

/** From a node up to the head-end, the node first. */
export function nodesUp({ nodes }: RecordTrunk, node: string | null): RecordNode[] {
  const found = nodes.find((one) => one.node === node);
  return found === undefined ? [] : [found, ...nodesUp({ nodes } as RecordTrunk, found.fedFrom)];
}

/** Another drawing of the same site: on one trunk two rooms in a row have each other's name. */
export function drawnWrong(site: AsBuilt, random: Random): AsBuilt {
  const at = Math.floor(random() * site.trunks.length);
  const trunks = site.trunks.map((trunk, t): RecordTrunk => {
    if (t !== at) return trunk;
    const pairs = trunk.nodes.flatMap(({ node, kind, fedFrom }) => {
      const feeder = trunk.nodes.find((one) => one.node === fedFrom);
      return kind === 'station' && feeder?.kind === 'station' ? [[fedFrom, node]] : [];
    });
    const [a, b] = pairs[Math.floor(random() * pairs.length)] ?? [];
    if (a == null || b == null) return trunk;
    const other = (node: string | null) => (node === a ? b : node === b ? a : node);
    const named = (node: string) => trunk.nodes.find((one) => one.node === node)!;
    const nodes = trunk.nodes.map((one): RecordNode => {
      const name = other(one.node)!;
      const { room, groups } = named(name);
      return { ...one, node: name, room, groups, fedFrom: other(one.fedFrom) };
    });
    return { ...trunk, nodes };
  });
  return { ...site, trunks };
}
