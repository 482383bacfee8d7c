import { exp } from '../../elementary/exp.js';
import { ln } from '../../elementary/ln.js';
import { checkJointQuestion } from './check-joint-question.js';
import { JointCandidate, JointQuestion, RefinedCandidate, RefinedJoint } from './joint-question.js';
import { logSumExp } from '../numbers/log-sum-exp.js';
import { predictReadings } from './predict-readings.js';
import { logFlatDensity, readingLikelihood } from './reading-likelihood.js';
import { solveTrunk } from './solve-trunk.js';
import { tabulateReadings } from './tabulate-readings.js';
import { weighJointOhms } from './weigh-joint-ohms.js';

/**
 * Reweights leading explanations by all voltage readings at once: the ladder is solved with a
 * series resistance of unknown, log-normal size at each candidate, and compared with the readings
 * under the full covariance of what they share (source, ohms per metre, loads, meter).
 *
 * The candidates' weights must not hold these readings yet. What is no candidate is given the
 * candidates' average likelihood, or that of readings which say nothing if they do worse than
 * that: readings that fit no candidate raise the mass not covered, and none lower it.
 *
 * Throws {@link ElectricalError} for figures that cannot be and for a trunk that collapses as drawn.
 */
export function refineResistiveJoint(question: JointQuestion): RefinedJoint {
  checkJointQuestion(question);
  solveTrunk(question.trunk);
  const predict = predictReadings(question);
  const weigh = ({ node }: JointCandidate): Omit<RefinedCandidate, 'probability'> => {
    if (node === null) {
      const { log } = readingLikelihood(question, predict(null, 0));
      return { node, logLikelihood: log, ohms: null };
    }
    const table = tabulateReadings(question.jointOhms, (ohms) => predict(node, ohms));
    const likelihood = (ohms: number) => readingLikelihood(question, table(ohms));
    return { node, ...weighJointOhms(question, likelihood) };
  };
  const weighed = question.candidates.map(weigh);
  const logJoint = weighed.map(({ logLikelihood }, i) => {
    return ln(question.candidates[i]?.weight ?? 0) + logLikelihood;
  });
  const covered = question.candidates.reduce((sum, { weight }) => sum + weight, 0);
  const logAverage = logSumExp(Float64Array.from(logJoint)) - ln(covered);
  const logUncovered =
    ln(Math.max(0, 1 - covered)) + Math.max(logAverage, logFlatDensity(question));
  const logTotal = logSumExp(Float64Array.of(...logJoint, logUncovered));
  return {
    candidates: weighed.map((candidate, i) => {
      return { ...candidate, probability: exp((logJoint[i] ?? -Infinity) - logTotal) };
    }),
    uncovered: exp(logUncovered - logTotal),
  };
}
