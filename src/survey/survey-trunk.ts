import { requireNonNegative, solveTrunk, SupplyTrunk } from '../locator/electrical/index.js';

export interface StationSupply {
  /** Index in the trunk's nodes. */
  node: number;
  /** Along the cable from the head-end. */
  cableMetres: number;
  volts: number;
  /** Above the least voltage that a station works at; negative: it would not work. */
  marginVolts: number;
}

export interface TrunkSurvey {
  portVolts: number;
  portAmps: number;
  /** Nodes with a load, in the trunk's order. */
  stations: StationSupply[];
  /** The station with the least margin (of equals the first); null without stations. */
  last: StationSupply | null;
}

/**
 * The expected voltage at every station of a drawn trunk with all of them drawing, and the margin
 * of the one that gets least. Throws {@link ElectricalError} as `solveTrunk` does.
 */
export function surveyTrunk(trunk: SupplyTrunk, minimumVolts: number): TrunkSurvey {
  requireNonNegative('minimumVolts', minimumVolts);
  const { portVolts, portAmps, nodeVolts } = solveTrunk(trunk);
  const metres = metresFromHeadEnd(trunk);
  const stations = trunk.nodes.flatMap(({ load }, node): StationSupply[] => {
    if (load === undefined) return [];
    const volts = nodeVolts[node] ?? 0;
    const cableMetres = metres[node] ?? 0;
    return [{ node, cableMetres, volts, marginVolts: volts - minimumVolts }];
  });
  const last = stations.reduce<StationSupply | null>(
    (least, station) => (least && least.volts <= station.volts ? least : station),
    null,
  );
  return { portVolts, portAmps, stations, last };
}

/** By node, along the cable from the head-end; a node may come before the one that feeds it. */
function metresFromHeadEnd({ nodes }: SupplyTrunk): number[] {
  const metres = new Array<number>(nodes.length);
  nodes.forEach((_, node) => {
    const way: number[] = [];
    let at: number | null = node;
    for (; at !== null && metres[at] === undefined; at = nodes[at]?.parent ?? null) way.push(at);
    let so = at === null ? 0 : (metres[at] ?? 0);
    for (const one of way.reverse()) metres[one] = so += nodes[one]?.cableMetres ?? 0;
  });
  return metres;
}
