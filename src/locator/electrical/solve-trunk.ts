import { solveWired } from './solve-wired.js';
import { SupplyTrunk, TrunkSolution } from './supply-trunk.js';
import { wireTrunk } from './wire-trunk.js';

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
  return solveWired(wireTrunk(trunk));
}
