import { ElectricalError } from './electrical-error.js';
import { JointQuestion } from './joint-question.js';
import { requireNonNegative, requirePositive } from './require-number.js';

const ROUNDING = 1e-9;

/** Throws {@link ElectricalError} with the path of the first figure that cannot be. */
export function checkJointQuestion(question: JointQuestion): void {
  const { candidates, readings, shared, jointOhms, trunk, wrongShare } = question;
  requirePositive('trunk/sourceVolts', trunk.sourceVolts);
  requirePositive('jointOhms/medianOhms', jointOhms.medianOhms);
  requirePositive('jointOhms/logDeviation', jointOhms.logDeviation);
  for (const [name, value] of Object.entries(shared))
    requireNonNegative(`shared/${name}`, value as number);
  if (!(wrongShare >= 0 && wrongShare < 1)) fail('wrongShare', 'must be from 0 to below 1');
  const isNode = (node: number) => trunk.nodes[node] !== undefined;
  readings.forEach((reading, i) => {
    if (!isNode(reading.node)) fail(`readings/${i}/node`, `there is no node ${reading.node}`);
    if (!Number.isFinite(reading.volts)) fail(`readings/${i}/volts`, 'must be a number');
    requirePositive(`readings/${i}/uncertaintyVolts`, reading.uncertaintyVolts);
  });
  candidates.forEach(({ node, weight }, i) => {
    if (node !== null && !isNode(node)) fail(`candidates/${i}/node`, `there is no node ${node}`);
    requireNonNegative(`candidates/${i}/weight`, weight);
  });
  const total = candidates.reduce((sum, { weight }) => sum + weight, 0);
  if (!(total > 0 && total <= 1 + ROUNDING)) {
    fail('candidates', `the weights must sum to above 0 and at most 1, not ${total}`);
  }
}

function fail(field: string, reason: string): never {
  throw new ElectricalError('invalid', field, reason);
}
