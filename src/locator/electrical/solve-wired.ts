import { ElectricalError } from './electrical-error.js';
import { TrunkSolution } from './supply-trunk.js';
import { WiredTrunk } from './wire-trunk.js';

/**
 * Sweeps until no voltage moves by more than this share of the source's. At the edge of collapse
 * the steps shrink slowly; 10,000 reach to within about a millionth of the greatest power.
 */
const STEADY_SHARE = 1e-14;
const MOST_SWEEPS = 10_000;

/** `solveTrunk`, which says how, for a trunk that is wired already. */
export function solveWired(wired: WiredTrunk): TrunkSolution {
  const size = wired.order.length;
  const solution: TrunkSolution = {
    portVolts: wired.sourceVolts,
    portAmps: 0,
    nodeVolts: new Array<number>(size).fill(wired.sourceVolts),
    spanAmps: new Array<number>(size).fill(0),
  };
  const hasPowerLoads = wired.constantWatts.some((watts) => watts > 0);
  const steadyVolts = STEADY_SHARE * wired.sourceVolts;
  for (let sweep = 0; sweep < MOST_SWEEPS; sweep++) {
    addUpAmps(wired, solution);
    const movedVolts = dropVolts(wired, solution);
    if (!hasPowerLoads || movedVolts <= steadyVolts) return solution;
  }
  throw new ElectricalError('supply-collapses', 'nodes', 'the loads are at the edge of collapse');
}

function addUpAmps(wired: WiredTrunk, solution: TrunkSolution): void {
  const { spanAmps, nodeVolts } = solution;
  for (const node of wired.order) {
    const watts = wired.constantWatts[node] ?? 0;
    const powerAmps = watts === 0 ? 0 : watts / (nodeVolts[node] ?? 0);
    spanAmps[node] = (wired.constantAmps[node] ?? 0) + powerAmps;
  }
  solution.portAmps = 0;
  for (let i = wired.order.length - 1; i >= 0; i--) {
    const node = wired.order[i] ?? 0;
    const amps = spanAmps[node] ?? 0;
    const parent = wired.parents[node] ?? -1;
    if (parent < 0) solution.portAmps += amps;
    else spanAmps[parent] = (spanAmps[parent] ?? 0) + amps;
  }
}

/** The largest change of a node's voltage. */
function dropVolts(wired: WiredTrunk, solution: TrunkSolution): number {
  const { nodeVolts, spanAmps } = solution;
  let movedVolts = 0;
  solution.portVolts = wired.sourceVolts - wired.sourceOhms * solution.portAmps;
  for (const node of wired.order) {
    const parent = wired.parents[node] ?? -1;
    const feedingVolts = parent < 0 ? solution.portVolts : (nodeVolts[parent] ?? 0);
    const amps = spanAmps[node] ?? 0;
    const volts = feedingVolts - (wired.feedOhms[node] ?? 0) * amps;
    if (amps > 0 && !(volts > 0)) {
      throw new ElectricalError(
        'supply-collapses',
        `nodes/${node}`,
        'the source cannot feed the loads: no voltage would be left here',
      );
    }
    movedVolts = Math.max(movedVolts, Math.abs((nodeVolts[node] ?? 0) - volts));
    nodeVolts[node] = volts;
  }
  return movedVolts;
}
