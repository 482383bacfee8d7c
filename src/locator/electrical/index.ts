export { copperFactor } from './copper-temperature.js';
export { ElectricalError, type ElectricalErrorCode } from './electrical-error.js';
export { feedingOrder } from './feeding-order.js';
export type {
  JointCandidate,
  JointQuestion,
  RefinedCandidate,
  RefinedJoint,
  SharedUncertainty,
  VoltsReading,
} from './joint-question.js';
export { refineResistiveJoint } from './refine-resistive-joint.js';
export { requireNonNegative, requirePositive } from './require-number.js';
export { solveTrunk } from './solve-trunk.js';
export type { Load, SupplyTrunk, TrunkNode, TrunkSolution } from './supply-trunk.js';
