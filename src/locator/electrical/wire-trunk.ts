import { feedingOrder } from './feeding-order.js';
import { requireNonNegative } from './require-number.js';
import { SupplyTrunk } from './supply-trunk.js';

/** A checked trunk as the solver wants it: flat arrays that follow `nodes`. */
export interface WiredTrunk {
  sourceVolts: number;
  sourceOhms: number;
  /** Indices, each node after its parent. */
  order: readonly number[];
  /** -1: the port. */
  parents: readonly number[];
  /** Of the span that feeds the node: cable, go and return, and its bad joint. */
  feedOhms: readonly number[];
  constantAmps: readonly number[];
  constantWatts: readonly number[];
}

/** Checks every figure; throws {@link ElectricalError} with the path of the first bad one. */
export function wireTrunk(trunk: SupplyTrunk): WiredTrunk {
  requireNonNegative('loopOhmsPerMetre', trunk.loopOhmsPerMetre);
  const loads = trunk.nodes.map(({ load }, i) => {
    if (load === undefined) return { amps: 0, watts: 0 };
    return load.kind === 'amps'
      ? { amps: requireNonNegative(`nodes/${i}/load/amps`, load.amps), watts: 0 }
      : { amps: 0, watts: requireNonNegative(`nodes/${i}/load/watts`, load.watts) };
  });
  return {
    sourceVolts: requireNonNegative('sourceVolts', trunk.sourceVolts),
    sourceOhms: requireNonNegative('sourceOhms', trunk.sourceOhms),
    order: feedingOrder(trunk.nodes),
    parents: trunk.nodes.map(({ parent }) => parent ?? -1),
    feedOhms: trunk.nodes.map((node, i) => {
      const metres = requireNonNegative(`nodes/${i}/cableMetres`, node.cableMetres);
      const ohmsPerMetre = node.loopOhmsPerMetre ?? trunk.loopOhmsPerMetre;
      const cableOhms = metres * requireNonNegative(`nodes/${i}/loopOhmsPerMetre`, ohmsPerMetre);
      return cableOhms + requireNonNegative(`nodes/${i}/jointOhms`, node.jointOhms ?? 0);
    }),
    constantAmps: loads.map(({ amps }) => amps),
    constantWatts: loads.map(({ watts }) => watts),
  };
}
