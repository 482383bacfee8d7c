import { ElectricalError } from './electrical-error.js';
import { SupplyTrunk, TrunkSolution } from './supply-trunk.js';
import { WiredTrunk, wireTrunk } from './wire-trunk.js';

/**
 * Sweeps until no voltage moves by more than this share of the source's. At the edge of collapse
 * the steps shrink slowly; 10,000 reach to within about a millionth of the greatest power.
 */
const STEADY_SHARE = 1e-14;
const MOST_SWEEPS = 10_000;

/**
 * Voltage at every node and current in every span with all loads drawing.
 *
 * Constant currents need one sweep: currents add up from the leaves, volts fall from the port.
 * Constant powers draw P/V, so the sweep is repeated from the unloaded trunk: currents that are
 * too small, voltages that are too high. Raising any voltage lowers every current and so raises
 * every voltage of the next sweep; starting above all solutions, the voltages therefore only fall,
 * and stop at the highest solution, where a trunk that is switched on does run. Nothing holds them
 * if there is none: that is a collapse.
 *
 * Throws {@link ElectricalError} `invalid` with a field, or `supply-collapses` with the first node
 * that is left without voltage.
 */
export function solveTrunk(trunk: SupplyTrunk): TrunkSolution {
  const wired = wireTrunk(trunk);
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
