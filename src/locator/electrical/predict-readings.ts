import { ElectricalError } from './electrical-error.js';
import { JointQuestion } from './joint-question.js';
import { solveWired } from './solve-wired.js';
import { SupplyTrunk } from './supply-trunk.js';
import { WiredTrunk, wireTrunk } from './wire-trunk.js';

/** Expected readings, and what one standard uncertainty of each shared nuisance does to them. */
export interface PredictedReadings {
  volts: number[];
  /** A row for each nuisance that is uncertain. */
  effects: number[][];
}

/** For a bad joint of so many ohms in the span that feeds `node`; null: the supply collapses. */
export type PredictReadings = (node: number | null, jointOhms: number) => PredictedReadings | null;

/**
 * The ladder is linearised in the shared nuisances around the trunk as drawn, anew for each size
 * of joint. With constant currents the voltages are linear in each nuisance alone, so differences
 * over one standard uncertainty are exact; what is left out are products of two nuisances, such as
 * 3 % of the ohms times 5 % of the current: 0.15 % of the drop, a few millivolts where the meter
 * is off by fifty. Constant powers bend the voltages by the same order while the supply holds.
 */
export function predictReadings(question: JointQuestion): PredictReadings {
  const { trunk, shared, readings } = question;
  const drawn = wireTrunk(trunk);
  const shifts = [
    shiftedPair(shared.sourceVolts, (by) => ({ ...trunk, sourceVolts: trunk.sourceVolts + by })),
    shiftedPair(shared.ohmsPerMetreShare, (by) => withOhmsScaled(trunk, 1 + by)),
    shiftedPair(shared.loadShare, (by) => withLoadsScaled(trunk, 1 + by)),
  ].filter((pair) => pair !== null);

  return (node, jointOhms) => {
    const read = (wired: WiredTrunk) => {
      const { nodeVolts } = solveWired(withJoint(wired, node, jointOhms));
      return readings.map((reading) => nodeVolts[reading.node] ?? 0);
    };
    try {
      const effects = shifts.map(([above, below]) => {
        const voltsBelow = read(below);
        return read(above).map((volts, i) => (volts - (voltsBelow[i] ?? 0)) / 2);
      });
      return { volts: read(drawn), effects };
    } catch (error) {
      if (error instanceof ElectricalError && error.code === 'supply-collapses') return null;
      throw error;
    }
  };
}

/** Null for a nuisance that is known exactly. */
function shiftedPair(
  uncertainty: number,
  shifted: (by: number) => SupplyTrunk,
): [WiredTrunk, WiredTrunk] | null {
  if (uncertainty === 0) return null;
  return [wireTrunk(shifted(uncertainty)), wireTrunk(shifted(-uncertainty))];
}

function withOhmsScaled(trunk: SupplyTrunk, factor: number): SupplyTrunk {
  const nodes = trunk.nodes.map((node) => ({
    ...node,
    loopOhmsPerMetre: (node.loopOhmsPerMetre ?? trunk.loopOhmsPerMetre) * factor,
  }));
  return { ...trunk, nodes };
}

function withLoadsScaled(trunk: SupplyTrunk, factor: number): SupplyTrunk {
  const nodes = trunk.nodes.map((node) => {
    const { load } = node;
    if (load === undefined) return node;
    return load.kind === 'amps'
      ? { ...node, load: { ...load, amps: load.amps * factor } }
      : { ...node, load: { ...load, watts: load.watts * factor } };
  });
  return { ...trunk, nodes };
}

function withJoint(wired: WiredTrunk, node: number | null, jointOhms: number): WiredTrunk {
  if (node === null) return wired;
  const feedOhms = wired.feedOhms.with(node, (wired.feedOhms[node] ?? 0) + jointOhms);
  return { ...wired, feedOhms };
}
