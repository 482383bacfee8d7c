import { SupplyTrunk } from './supply-trunk.js';

/** A supply voltage read at a node, loads drawing. */
export interface VoltsReading {
  node: number;
  volts: number;
  /** Standard, of this reading alone; above 0. */
  uncertaintyVolts: number;
}

/** One leading explanation: a bad joint in the span that feeds `node`; null: no bad joint. */
export interface JointCandidate {
  node: number | null;
  /** Its probability before these readings. The weights sum to at most 1. */
  weight: number;
}

/** Standard uncertainties of what all readings have in common. */
export interface SharedUncertainty {
  sourceVolts: number;
  /** Of all ohms per metre together, as a share. */
  ohmsPerMetreShare: number;
  /** Of all stations' current or power together, as a share. */
  loadShare: number;
  /** The meter's own offset: reading again does not lessen it. */
  meterVolts: number;
}

export interface JointQuestion {
  /** As drawn, without the bad joint. */
  trunk: SupplyTrunk;
  candidates: readonly JointCandidate[];
  readings: readonly VoltsReading[];
  shared: SharedUncertainty;
  /** Log-normal: the median, and the standard deviation of the natural logarithm. */
  jointOhms: { medianOhms: number; logDeviation: number };
  /** Chance of a wrong terminal or range for each reading, 0 to below 1; the model's is 0.01. */
  wrongShare: number;
}

export interface RefinedCandidate {
  node: number | null;
  probability: number;
  /** Natural log density of the readings given the candidate. */
  logLikelihood: number;
  /** Of the bad joint: median and 90 % interval; null where there is none. */
  ohms: { median: number; low: number; high: number } | null;
}

export interface RefinedJoint {
  /** In the order of the question. */
  candidates: RefinedCandidate[];
  /** Probability of everything that was no candidate. With the candidates it sums to 1. */
  uncovered: number;
}
