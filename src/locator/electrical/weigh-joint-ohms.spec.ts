import { describe, expect, it } from '@jest/globals';
import { JointQuestion } from './joint-question.js';
import { weighJointOhms } from './weigh-joint-ohms.js';

const question = { jointOhms: { medianOhms: 2, logDeviation: 1.2 } } as JointQuestion;
const logNormal = (x: number, mean: number, deviation: number) =>
  -0.5 * ((x - mean) / deviation) ** 2 - Math.log(deviation * Math.sqrt(2 * Math.PI));

describe('weighing the ohms of a joint', () => {
  it('returns the prior where the readings say nothing', () => {
    const { logLikelihood, ohms } = weighJointOhms(question, () => ({ log: -3, logParts: [-3] }));
    expect(logLikelihood).toBeCloseTo(-3, 2);
    expect(Math.log(ohms.median / 2)).toBeCloseTo(0, 3);
    expect(Math.log(ohms.high / 2) / 1.2).toBeCloseTo(1.6449, 2);
    expect(Math.log(ohms.low / 2) / 1.2).toBeCloseTo(-1.6449, 2);
  });

  // A normal likelihood in log ohms times a normal prior has a closed form.
  it.each([0.5, 0.05, 0.001])('finds a peak of width %d wherever it lies', (width) => {
    for (const at of [-2.013, 0.7, 1.9]) {
      const { logLikelihood, ohms } = weighJointOhms(question, (r) => {
        const log = logNormal(Math.log(r), at, width);
        return { log, logParts: [log] };
      });
      const exact = logNormal(at, Math.LN2, Math.hypot(1.2, width));
      expect(logLikelihood).toBeCloseTo(exact, 2);
      const shrunk = (at * 1.44 + Math.LN2 * width ** 2) / (1.44 + width ** 2);
      expect(Math.log(ohms.median)).toBeCloseTo(shrunk, 2);
    }
  });

  it('finds a narrow peak under a flat share that hides its flanks', () => {
    const { logLikelihood } = weighJointOhms(question, (r) => {
      const peak = Math.log(0.99) + logNormal(Math.log(r), 1.111, 0.002);
      return { log: Math.log(Math.exp(peak) + 1e-4), logParts: [peak] };
    });
    const exact = 0.99 * Math.exp(logNormal(1.111, Math.LN2, 1.2)) + 1e-4;
    expect(logLikelihood).toBeCloseTo(Math.log(exact), 2);
  });
});
