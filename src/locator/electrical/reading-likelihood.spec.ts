import { describe, expect, it } from '@jest/globals';
import { JointQuestion } from './joint-question.js';
import { logFlatDensity, readingLikelihood } from './reading-likelihood.js';

const question = (volts: number[], wrongShare: number): JointQuestion => ({
  trunk: { sourceVolts: 20, sourceOhms: 0, loopOhmsPerMetre: 0.1, nodes: [] },
  candidates: [],
  readings: volts.map((v) => ({ node: 0, volts: v, uncertaintyVolts: 0.3 })),
  shared: { sourceVolts: 0.4, ohmsPerMetreShare: 0, loadShare: 0, meterVolts: 0 },
  jointOhms: { medianOhms: 1, logDeviation: 1 },
  wrongShare,
});
const normal = (x: number, deviation: number) =>
  Math.exp(-0.5 * (x / deviation) ** 2) / (deviation * Math.sqrt(2 * Math.PI));
const flat = 1 / 30;

describe('likelihood of readings', () => {
  it('mixes a normal with a flat share: section 6 with one reading', () => {
    const { log } = readingLikelihood(question([19.2], 0.01), { volts: [19], effects: [[0.4]] });
    expect(Math.exp(log)).toBeCloseTo(0.99 * normal(0.2, 0.5) + 0.01 * flat, 12);
  });

  it('lets either of two readings be wrong', () => {
    const predicted = { volts: [19, 19], effects: [[0.4, 0.4]] };
    const { log } = readingLikelihood(question([19.2, 3], 0.1), predicted);
    const oneWrong = 0.09 * flat * (normal(0.2, 0.5) + normal(-16, 0.5));
    expect(Math.exp(log)).toBeCloseTo(oneWrong + 0.01 * flat ** 2, 12);
  });

  it('shares the nuisance: two readings of one node are not two sources', () => {
    const predicted = { volts: [19, 19], effects: [[0.4, 0.4]] };
    const { log } = readingLikelihood(question([19.5, 19.5], 0), predicted);
    // Their mean has variance 0.4² + 0.3²/2, their difference 2 · 0.3².
    const mean = normal(0.5, Math.sqrt(0.16 + 0.045));
    expect(Math.exp(log)).toBeCloseTo(mean * normal(0, Math.sqrt(0.18)), 9);
  });

  it('says nothing about readings under a supply that collapses', () => {
    const asked = question([19, 1], 0.01);
    expect(readingLikelihood(asked, null).log).toBe(logFlatDensity(asked));
    expect(Math.exp(logFlatDensity(asked))).toBeCloseTo(flat ** 2, 12);
  });
});
