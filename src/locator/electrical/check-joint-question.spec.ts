import { describe, expect, it } from '@jest/globals';
import { checkJointQuestion } from './check-joint-question.js';
import { JointQuestion } from './joint-question.js';

const good: JointQuestion = {
  trunk: {
    sourceVolts: 24,
    sourceOhms: 0,
    loopOhmsPerMetre: 0.04,
    nodes: [{ parent: null, cableMetres: 10 }],
  },
  candidates: [{ node: 0, weight: 0.9 }],
  readings: [{ node: 0, volts: 23, uncertaintyVolts: 0.1 }],
  shared: { sourceVolts: 0.3, ohmsPerMetreShare: 0.03, loadShare: 0.1, meterVolts: 0.05 },
  jointOhms: { medianOhms: 2, logDeviation: 1.5 },
  wrongShare: 0.01,
};

describe('checking a question about a joint', () => {
  it('passes a good one', () => {
    expect(() => checkJointQuestion(good)).not.toThrow();
  });

  it.each([
    ['trunk/sourceVolts', { trunk: { ...good.trunk, sourceVolts: 0 } }],
    ['jointOhms/logDeviation', { jointOhms: { medianOhms: 2, logDeviation: 0 } }],
    ['shared/loadShare', { shared: { ...good.shared, loadShare: Number.NaN } }],
    ['wrongShare', { wrongShare: 1 }],
    ['readings/0/node', { readings: [{ node: 1, volts: 23, uncertaintyVolts: 0.1 }] }],
    ['readings/0/volts', { readings: [{ node: 0, volts: Number.NaN, uncertaintyVolts: 0.1 }] }],
    ['readings/0/uncertaintyVolts', { readings: [{ node: 0, volts: 23, uncertaintyVolts: 0 }] }],
    ['candidates/0/node', { candidates: [{ node: 3, weight: 0.5 }] }],
    ['candidates/0/weight', { candidates: [{ node: 0, weight: -0.5 }] }],
    ['candidates', { candidates: [{ node: 0, weight: 1.5 }] }],
    ['candidates', { candidates: [] }],
  ] as [string, Partial<JointQuestion>][])('names %s', (field, bad) => {
    expect(() => checkJointQuestion({ ...good, ...bad })).toThrow(
      expect.objectContaining({ code: 'invalid', field }),
    );
  });
});
