import { power } from '../../elementary/power.js';
import { ln } from '../../elementary/ln.js';
import { JointQuestion } from './joint-question.js';
import { logSumExp } from '../numbers/log-sum-exp.js';
import { normalLogDensities } from '../numbers/normal-log-densities.js';
import { PredictedReadings } from './predict-readings.js';

export interface ReadingLikelihood {
  /** Natural log density of the readings. */
  log: number;
  /** Of its normal parts (all readings right; each in turn wrong): where each one peaks. */
  logParts: number[];
}

/**
 * Log density of readings that say nothing: each anywhere on [0, 1.5 V0], as in the sweep.
 */
export function logFlatDensity({ trunk, readings }: JointQuestion): number {
  return -readings.length * ln(1.5 * trunk.sourceVolts);
}

/**
 * Each reading is at a wrong terminal or range with chance ε: flat on [0, 1.5 V0], else jointly
 * normal. None or one wrong is exact; two or more, of weight about (nε)²/2, are taken as all flat.
 * A supply that collapses (`predicted` null) makes all flat: what its stations then draw, and so
 * every voltage, is not modelled.
 */
export function readingLikelihood(
  question: JointQuestion,
  predicted: PredictedReadings | null,
): ReadingLikelihood {
  const { readings, wrongShare, trunk } = question;
  const count = readings.length;
  const logAllFlat = logFlatDensity(question);
  if (predicted === null) {
    return { log: logAllFlat, logParts: new Array<number>(count + 1).fill(-Infinity) };
  }
  const residuals = readings.map(({ volts }, i) => volts - (predicted.volts[i] ?? 0));
  const { all, without } = normalLogDensities(residuals, covarianceOf(question, predicted));
  const logFlat = -ln(1.5 * trunk.sourceVolts);
  const noneWrong = power(1 - wrongShare, count);
  const oneWrong = wrongShare * power(1 - wrongShare, count - 1);
  const moreWrong = Math.max(0, 1 - noneWrong - count * oneWrong);
  const logParts = [
    ln(noneWrong) + all,
    ...without.map((density) => ln(oneWrong) + logFlat + density),
  ];
  return { log: logSumExp(Float64Array.of(...logParts, ln(moreWrong) + logAllFlat)), logParts };
}

/** Each reading's own variance, the meter's offset and the nuisances that all readings share. */
function covarianceOf(
  { readings, shared }: JointQuestion,
  { effects }: PredictedReadings,
): number[][] {
  return readings.map(({ uncertaintyVolts }, i) =>
    readings.map((_, j) => {
      const own = i === j ? power(uncertaintyVolts, 2) : 0;
      const common = effects.reduce((sum, effect) => sum + (effect[i] ?? 0) * (effect[j] ?? 0), 0);
      return own + power(shared.meterVolts, 2) + common;
    }),
  );
}
