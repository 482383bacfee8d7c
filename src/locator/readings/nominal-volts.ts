import { ElectricalError } from '../electrical/electrical-error.js';
import { solveTrunk } from '../electrical/solve-trunk.js';
import type { SupplyTrunk } from '../electrical/supply-trunk.js';
import { InvalidLocateRequest } from '../request/errors.js';
import type { Electrical } from '../request/locate-request.js';
import { loopOhmsPerMetre } from '../request/longest-loop-ohms.js';
import type { TrunkTree } from '../sweep/trunk-tree.js';

/** The trunk as a ladder in which every station draws its current; nodes as in the tree. */
export function ladderOf(tree: TrunkTree, electrical: Required<Electrical>): SupplyTrunk {
  const { sourceVolts, sourceOhms, stationAmps } = electrical;
  return {
    sourceVolts,
    sourceOhms,
    loopOhmsPerMetre: loopOhmsPerMetre(electrical),
    nodes: tree.nodeIds.map((_, n) => {
      const feeder = tree.parent[n] ?? -1;
      return {
        parent: feeder < 0 ? null : feeder,
        cableMetres: tree.cableMetres[n] ?? 0,
        load: tree.isStation[n] ? { kind: 'amps', amps: stationAmps } : undefined,
      };
    }),
  };
}

/**
 * Volts at each node of a trunk without a fault, all stations drawing.
 * @throws InvalidLocateRequest when the supply collapses under them
 */
export function nominalVolts(tree: TrunkTree, electrical: Required<Electrical>): number[] {
  try {
    return solveTrunk(ladderOf(tree, electrical)).nodeVolts;
  } catch (error) {
    if (!(error instanceof ElectricalError) || error.code !== 'supply-collapses') throw error;
    const at = tree.nodeIds[Number(error.field.split('/')[1])];
    const where = at === undefined ? '' : ` at "${at}"`;
    const reason = `the supply collapses on trunk "${tree.id}" when every station draws its current: no voltage would be left${where}`;
    throw new InvalidLocateRequest([{ pointer: '/electrical', reason }]);
  }
}
