import { Drawing } from '../../drawing/drawing.js';
import { treeOf } from '../../drawing/drawn-tree.js';
import type { ExpectedFaults, TrunkExpectation } from '../../plan/expected-faults.js';
import type { LocateRequest, RequestNode, RequestTrunk } from '../request/locate-request.js';

/** One way in which a trunk may be laid that the drawing does not show, by the names of its nodes. */
export type OtherDrawing =
  /** The run hangs from a tee at the node before it, and so does what follows it. */
  | {
      readonly kind: 'branch';
      readonly before: string;
      readonly run: readonly string[];
      readonly after: string;
    }
  /** The run lies behind the last node of its stretch; what follows it is fed from the node before it. */
  | {
      readonly kind: 'end';
      readonly before: string;
      readonly run: readonly string[];
      readonly after: string;
      readonly last: string;
    }
  /** Two nodes, one feeding the other, have each other's names. */
  | { readonly kind: 'swapped'; readonly upper: string; readonly lower: string };

/** The trunk's nodes with every feeder named. */
function withFeeders(trunk: RequestTrunk): (RequestNode & { fedFrom: string | null })[] {
  const { nodes, parent, nodeIds } = treeOf(trunk);
  return nodes.map((node, n) => ({ ...node, fedFrom: nodeIds[parent[n] ?? -1] ?? null }));
}

function moveFeeds(trunk: RequestTrunk, feeds: ReadonlyMap<string, string>): RequestTrunk {
  const nodes = withFeeders(trunk).map((node) => ({
    ...node,
    fedFrom: feeds.get(node.id) ?? node.fedFrom,
  }));
  return { ...trunk, nodes };
}

/** Metres, feeds and exposure stay where they are; all else is known of the unit and goes with the name. */
function swapNames(trunk: RequestTrunk, upper: string, lower: string): RequestTrunk {
  const other = (id: string) => (id === upper ? lower : id === lower ? upper : id);
  const unitOf = (id: string) => trunk.nodes.find((node) => node.id === other(id));
  const nodes = trunk.nodes.map((place): RequestNode => {
    const { fedFrom } = place;
    // What is fed from the one before it in the list is so still.
    const feeder = typeof fedFrom === 'string' ? other(fedFrom) : fedFrom;
    const unit = other(place.id) === place.id ? place : (unitOf(place.id) ?? place);
    if (unit === place && feeder === fedFrom) return place;
    const moved: RequestNode = { ...unit, cableMetres: place.cableMetres };
    delete moved.fedFrom;
    if (feeder !== undefined) moved.fedFrom = feeder;
    delete moved.exposureDays;
    if (place.exposureDays !== undefined) moved.exposureDays = place.exposureDays;
    return moved;
  });
  return { ...trunk, nodes };
}

function redrawTrunk(trunk: RequestTrunk, other: OtherDrawing): RequestTrunk {
  switch (other.kind) {
    case 'branch':
      return moveFeeds(trunk, new Map([[other.after, other.before]]));
    case 'end':
      return moveFeeds(
        trunk,
        new Map([
          [other.after, other.before],
          [other.run[0] ?? '', other.last],
        ]),
      );
    case 'swapped':
      return swapNames(trunk, other.upper, other.lower);
  }
}

/** The same request over a drawing in which one trunk is laid otherwise; null where a reading does not fit that. */
export function drawnOtherwise(
  request: LocateRequest,
  trunkId: string,
  other: OtherDrawing,
): LocateRequest | null {
  const drawn = request.trunks.find(({ id }) => id === trunkId);
  if (!drawn) return null;
  const trunk = redrawTrunk(drawn, other);
  const readings = (request.readings ?? []).filter((reading) => reading.trunk === trunkId);
  const drawing = new Drawing(readings.length > 0 ? [trunk] : []);
  for (const reading of readings)
    if (reading.kind === 'continuity') {
      const { from = null, to } = reading;
      const fits = from === null || drawing.pathTo(trunkId, to).some(({ id }) => id === from);
      if (!fits) return null;
    }
  return {
    ...request,
    trunks: request.trunks.map((one) => (one.id === trunkId ? trunk : one)),
  };
}

/** What is to be expected of spans stays with the place in the trunk, what is of stations goes with the name. */
export function expectedOtherwise(
  expected: ExpectedFaults | undefined,
  trunkId: string,
  other: OtherDrawing,
): ExpectedFaults | undefined {
  if (!expected || other.kind !== 'swapped') return expected;
  const { upper, lower } = other;
  const swap = (trunk: TrunkExpectation): TrunkExpectation => {
    const byId = new Map(trunk.nodes.map((node) => [node.id, node]));
    const names = new Map([
      [upper, lower],
      [lower, upper],
    ]);
    return {
      ...trunk,
      nodes: trunk.nodes.map((node) => {
        const place = byId.get(names.get(node.id) ?? '');
        return place ? { ...place, id: node.id, station: node.station } : node;
      }),
    };
  };
  return {
    ...expected,
    trunks: expected.trunks.map((trunk) => (trunk.id === trunkId ? swap(trunk) : trunk)),
  };
}
