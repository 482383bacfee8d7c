import { describe, expect, it } from '@jest/globals';
import { JointQuestion } from './joint-question.js';
import { predictReadings } from './predict-readings.js';
import { Load } from './supply-trunk.js';
import { tabulateReadings } from './tabulate-readings.js';

function question(load: Load): JointQuestion {
  const nodes = Array.from({ length: 10 }, (_, i) => ({
    parent: i === 0 ? null : i - 1,
    cableMetres: 20,
    load,
  }));
  return {
    trunk: { sourceVolts: 24, sourceOhms: 0.2, loopOhmsPerMetre: 0.0362, nodes },
    candidates: [],
    readings: [3, 9].map((node) => ({ node, volts: 20, uncertaintyVolts: 0.05 })),
    shared: { sourceVolts: 0.3, ohmsPerMetreShare: 0.03, loadShare: 0.1, meterVolts: 0.05 },
    jointOhms: { medianOhms: 2, logDeviation: 1.5 },
    wrongShare: 0.01,
  };
}

/** Largest error of the table in volts, over sizes between its rows. */
function largestError(asked: JointQuestion, largestOhms: number): number {
  const predict = predictReadings(asked);
  const table = tabulateReadings(asked.jointOhms, (ohms) => predict(5, ohms));
  const errors = Array.from({ length: 200 }, (_, i) => {
    const ohms = largestOhms * 0.001 ** (i / 200);
    const [exact, read] = [predict(5, ohms)?.volts, table(ohms)?.volts];
    return Math.max(...[0, 1].map((k) => Math.abs((exact?.[k] ?? 0) - (read?.[k] ?? Infinity))));
  });
  return Math.max(...errors);
}

describe('a table of readings over the size of the joint', () => {
  it('is exact for constant currents', () => {
    expect(largestError(question({ kind: 'amps', amps: 0.08 }), 30)).toBeLessThan(1e-10);
  });

  it.each([
    [6, 0.008],
    [10.5, 0.05],
  ])('follows constant powers up to %d ohm within %d V', (largestOhms, volts) => {
    const largest = largestError(question({ kind: 'watts', watts: 1.5 }), largestOhms);
    expect(largest).toBeGreaterThan(1e-6);
    expect(largest).toBeLessThan(volts);
  });

  it.each([
    { kind: 'amps', amps: 0.08 },
    { kind: 'watts', watts: 1.5 },
  ] as Load[])('ends within a hundredth of where the supply collapses (%p)', (load) => {
    const asked = question(load);
    const predict = predictReadings(asked);
    const table = tabulateReadings(asked.jointOhms, (ohms) => predict(5, ohms));
    let [holds, collapses] = [1, 1000];
    while (collapses - holds > 1e-6) {
      const middle = (holds + collapses) / 2;
      if (predict(5, middle) === null) collapses = middle;
      else holds = middle;
    }
    expect(table(holds * 0.99)).not.toBeNull();
    expect(table(collapses * 1.01)).toBeNull();
  });

  it('is always null where even the smallest joint collapses', () => {
    expect(tabulateReadings({ medianOhms: 1, logDeviation: 1 }, () => null)(1)).toBeNull();
  });
});
