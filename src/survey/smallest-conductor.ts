import { coreResistance, loopOhmsPerMetreOf } from './core-resistance.js';
import { ElectricalError, SupplyTrunk } from '../locator/electrical/index.js';
import { ConductorClass, IEC_SIZES } from './iec-60228.js';
import { surveyTrunk } from './survey-trunk.js';

export interface SmallestConductor {
  squareMillimetres: number;
  /** Of the station that gets least. */
  marginVolts: number;
}

/**
 * The smallest size of IEC 60228 that leaves every station `minimumVolts` if the whole trunk is
 * laid in it (its maximum resistance at `celsius`, so no sound cable does worse); null if not even
 * the largest of the table does. Throws {@link ElectricalError} for a trunk that is not valid.
 */
export function smallestConductor(
  trunk: SupplyTrunk,
  conductorClass: ConductorClass,
  celsius: number,
  minimumVolts: number,
): SmallestConductor | null {
  for (const squareMillimetres of IEC_SIZES) {
    const core = coreResistance({ kind: 'iec-60228', squareMillimetres, conductorClass });
    const marginVolts = marginWith(trunk, loopOhmsPerMetreOf(core, celsius), minimumVolts);
    if (marginVolts !== null && marginVolts >= 0) return { squareMillimetres, marginVolts };
  }
  return null;
}

/** Null where the supply collapses. */
function marginWith(trunk: SupplyTrunk, ohmsPerMetre: number, minimumVolts: number): number | null {
  const nodes = trunk.nodes.map((node) => ({ ...node, loopOhmsPerMetre: ohmsPerMetre }));
  try {
    const { last } = surveyTrunk({ ...trunk, nodes }, minimumVolts);
    return last === null ? trunk.sourceVolts - minimumVolts : last.marginVolts;
  } catch (error) {
    if (error instanceof ElectricalError && error.code === 'supply-collapses') return null;
    throw error;
  }
}
