import { describe, expect, it } from '@jest/globals';
import { JointQuestion } from './joint-question.js';
import { predictReadings } from './predict-readings.js';

const question: JointQuestion = {
  trunk: {
    sourceVolts: 24,
    sourceOhms: 0,
    loopOhmsPerMetre: 0.1,
    nodes: [
      { parent: null, cableMetres: 10, load: { kind: 'amps', amps: 0.5 } },
      { parent: 0, cableMetres: 10, load: { kind: 'amps', amps: 0.5 } },
    ],
  },
  candidates: [],
  readings: [
    { node: 0, volts: 23, uncertaintyVolts: 0.1 },
    { node: 1, volts: 22, uncertaintyVolts: 0.1 },
  ],
  shared: { sourceVolts: 0.3, ohmsPerMetreShare: 0.1, loadShare: 0.2, meterVolts: 0.05 },
  jointOhms: { medianOhms: 1, logDeviation: 1 },
  wrongShare: 0.01,
};

describe('predicted readings', () => {
  // Spans of 1 ohm carry 1 A and 0.5 A; a joint of 2 ohm in the second drops 1 V more.
  it('gives volts and the effect of one standard uncertainty of each nuisance', () => {
    const predicted = predictReadings(question)(1, 2);
    expect(predicted?.volts).toEqual([23, 21.5]);
    const rounded = predicted?.effects.map((row) => row.map((x) => Number(x.toFixed(12))));
    expect(rounded).toEqual([
      [0.3, 0.3],
      [-0.1, -0.15], // the joint is not made of cable
      [-0.2, -0.5],
    ]);
  });

  it('leaves out a nuisance that is known exactly', () => {
    const shared = { ...question.shared, sourceVolts: 0, loadShare: 0 };
    expect(predictReadings({ ...question, shared })(null, 0)?.effects).toHaveLength(1);
  });

  it('is null where the supply collapses', () => {
    expect(predictReadings(question)(1, 100)).toBeNull();
  });
});
