import { describe, expect, it } from '@jest/globals';
import { locate, type LocateRequest, type ResistiveJoints } from '#app/locator/index.js';
import { solveTrunk } from '#app/locator/electrical/index.js';
import { ORACLE_RATES } from './oracle/tables.js';

const ELECTRICAL = {
  sourceVolts: 24,
  sourceOhms: 0.2,
  stationAmps: 0.08,
  coreOhmsPerKm: 18.1,
  celsius: 20,
};
const nodes = Array.from({ length: 10 }, (_, n) => ({
  id: `A${n + 1}`,
  kind: 'station' as const,
  cableMetres: 20,
}));

/** What a meter shows at each station with a bad joint of so many ohms in the span into one of them. */
function voltsWith(joint: number, jointOhms: number): number[] {
  return solveTrunk({
    sourceVolts: 24,
    sourceOhms: 0.2,
    loopOhmsPerMetre: 0.0362,
    nodes: nodes.map(({ cableMetres }, n) => ({
      parent: n === 0 ? null : n - 1,
      cableMetres,
      load: { kind: 'amps', amps: 0.08 },
      jointOhms: n === joint ? jointOhms : 0,
    })),
  }).nodeVolts;
}

const read = (at: number[], volts: number[]) =>
  at.map((n) => ({
    kind: 'supply-volts' as const,
    trunk: 'A',
    node: `A${n + 1}`,
    volts: volts[n] ?? 0,
    uncertaintyVolts: 0.05,
  }));

function joints(request: Partial<LocateRequest>): ResistiveJoints | undefined {
  const { resistiveJoints } = locate({
    trunks: [{ id: 'A', nodes }],
    exposureDays: 365,
    electrical: ELECTRICAL,
    begunBy: 'round',
    ...request,
  });
  expect(resistiveJoints?.length ?? 0).toBeLessThan(2);
  return resistiveJoints?.[0];
}

const sum = (found: ResistiveJoints) =>
  found.candidates.reduce((total, { probability }) => total + probability, 0);
const atSpan = (found: ResistiveJoints, to: string) =>
  found.candidates
    .filter(({ place }) => place.to === to)
    .reduce((total, { probability }) => total + probability, 0);

describe('bad joints, refined by the ladder', () => {
  it('are found between two readings, with their ohms', () => {
    const found = joints({ readings: read([1, 5, 6, 9], voltsWith(6, 6)) });
    expect(found && atSpan(found, 'A7')).toBeGreaterThan(0.8);
    const ohms = found?.candidates[0]?.ohms;
    expect(ohms?.low).toBeLessThan(6);
    expect(ohms?.high).toBeGreaterThan(6);
  });

  it('have chances that sum to one with no joint and what is not covered', () => {
    for (const ohms of [4, 6, 20]) {
      const found = joints({ readings: read([4, 9], voltsWith(3, ohms)) });
      expect(found && sum(found) + found.noJoint + found.notCovered).toBeCloseTo(1, 9);
      expect(found?.notCovered).toBeLessThan(0.05);
    }
  });

  it('do not count one meter twice: a reading repeated moves little', () => {
    const once = joints({ readings: read([9], voltsWith(6, 6)) });
    const often = joints({ readings: read(new Array<number>(8).fill(9), voltsWith(6, 6)) });
    const odds = (found?: ResistiveJoints) => (found ? sum(found) / found.noJoint : NaN);
    expect(odds(often) / odds(once)).toBeLessThan(2);
    expect(odds(often) / odds(once)).toBeGreaterThan(0.5);
  });

  it('are left out where the readings are as drawn, and without readings in volts', () => {
    expect(joints({ readings: read([0, 9], voltsWith(0, 0)) })).toBeUndefined();
    expect(joints({ readings: [] })).toBeUndefined();
  });

  it('are weighed before the readings by what everything else says, exactly', () => {
    // A reading so uncertain that it says nothing leaves the chances as the other evidence has them.
    const blunt = read([9], voltsWith(0, 0)).map((one) => ({ ...one, uncertaintyVolts: 36 }));
    const rates = { ...ORACLE_RATES, junction: { resistive: 0.05 }, cablePerMetre: {} };
    const request = {
      trunks: [{ id: 'A', nodes: nodes.slice(0, 2) }],
      rates,
      observations: [
        { trunk: 'A', node: 'A2', function: 'lamp' as const, outcome: 'weak' as const },
        { trunk: 'A', node: 'A1', function: 'lamp' as const, outcome: 'works' as const },
      ],
    };
    const found = joints({ ...request, readings: blunt.map((one) => ({ ...one, node: 'A2' })) });
    const { places } = locate({ ...request, exposureDays: 365, begunBy: 'round' });
    const resistive = (to: string) =>
      places
        .filter(({ place }) => place.kind === 'span' && place.to === to)
        .reduce((total, { probability }) => total + probability, 0);
    // Two bad joints at once are the only difference: each span's own chance of any fault is then its chance of one.
    expect(found && atSpan(found, 'A2')).toBeGreaterThan(0.85 * resistive('A2'));
    expect(found && atSpan(found, 'A2')).toBeLessThan(1.15 * resistive('A2'));
  });
});
