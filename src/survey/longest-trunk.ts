import {
  ElectricalError,
  Load,
  requirePositive,
  SupplyTrunk,
} from '../locator/electrical/index.js';
import { surveyTrunk } from './survey-trunk.js';

/** An unbranched trunk of equal spans and equal stations, before it is drawn. */
export interface PlannedTrunk {
  sourceVolts: number;
  sourceOhms: number;
  loopOhmsPerMetre: number;
  spacingMetres: number;
  stationLoad: Load;
}

export interface LongestTrunk {
  stations: number;
  cableMetres: number;
  /** At the last station; the source's where there is none. */
  lastVolts: number;
}

/** More stations than any trunk has: reached only where the cable hardly resists. */
const MOST_STATIONS = 4096;

/**
 * The most stations for which the last still has `minimumVolts`; none if even one has not.
 * One more station lowers every voltage, so the answer is found by halving.
 * Throws {@link ElectricalError}, also where more than 4,096 stations would work.
 */
export function longestTrunk(planned: PlannedTrunk, minimumVolts: number): LongestTrunk {
  requirePositive('spacingMetres', planned.spacingMetres);
  requirePositive('minimumVolts', minimumVolts);
  if (lastVolts(planned, MOST_STATIONS, minimumVolts) !== null) {
    throw new ElectricalError('invalid', 'stationLoad', `${MOST_STATIONS} stations would work`);
  }
  let works = 0;
  let fails = MOST_STATIONS;
  while (fails - works > 1) {
    const half = (works + fails) >> 1;
    if (lastVolts(planned, half, minimumVolts) === null) fails = half;
    else works = half;
  }
  return {
    stations: works,
    cableMetres: works * planned.spacingMetres,
    lastVolts: lastVolts(planned, works, 0) ?? planned.sourceVolts,
  };
}

/** Null if the last of so many stations gets less than the minimum, or the supply collapses. */
function lastVolts(planned: PlannedTrunk, stations: number, minimumVolts: number): number | null {
  try {
    const { last } = surveyTrunk(drawn(planned, stations), minimumVolts);
    if (last === null) return planned.sourceVolts;
    return last.marginVolts >= 0 ? last.volts : null;
  } catch (error) {
    if (error instanceof ElectricalError && error.code === 'supply-collapses') return null;
    throw error;
  }
}

function drawn(
  { spacingMetres, stationLoad, ...source }: PlannedTrunk,
  stations: number,
): SupplyTrunk {
  const nodes = Array.from({ length: stations }, (_, i) => ({
    parent: i === 0 ? null : i - 1,
    cableMetres: spacingMetres,
    load: stationLoad,
  }));
  return { ...source, nodes };
}
