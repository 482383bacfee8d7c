export {
  coreResistance,
  loopOhmsPerMetreOf,
  type Conductor,
  type CoreResistance,
} from './core-resistance.js';
export { distanceToShort, type DistanceToShort, type LoopReading } from './distance-to-short.js';
export { exceedsExtraLowVoltage } from './extra-low-voltage.js';
export { gaugeDiameterMillimetres, gaugeOhmsPerKm } from './american-wire-gauge.js';
export { IEC_SIZES, maximumOhmsPerKm, type ConductorClass } from './iec-60228.js';
export { longestTrunk, type LongestTrunk, type PlannedTrunk } from './longest-trunk.js';
export { murrayMetres, varleyOhms } from './loop-bridge.js';
export { smallestConductor, type SmallestConductor } from './smallest-conductor.js';
export { surveyTrunk, type StationSupply, type TrunkSurvey } from './survey-trunk.js';
