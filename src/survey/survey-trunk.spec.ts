import { describe, expect, it } from '@jest/globals';
import { Load, SupplyTrunk } from '../locator/electrical/index.js';
import { surveyTrunk } from './survey-trunk.js';

const load: Load = { kind: 'amps', amps: 0.5 };
const teed: SupplyTrunk = {
  sourceVolts: 24,
  sourceOhms: 0,
  loopOhmsPerMetre: 0.1,
  nodes: [
    { parent: null, cableMetres: 10, load },
    { parent: 0, cableMetres: 4 },
    { parent: 1, cableMetres: 30, load },
    { parent: 1, cableMetres: 6, load },
  ],
};

describe('survey of a trunk', () => {
  it('gives every station its voltage, its metres and its margin', () => {
    const { stations, portVolts, portAmps } = surveyTrunk(teed, 21);
    expect(portVolts).toBe(24);
    expect(portAmps).toBe(1.5);
    expect(stations.map(({ node }) => node)).toEqual([0, 2, 3]);
    expect(stations.map(({ cableMetres }) => cableMetres)).toEqual([10, 44, 20]);
    [22.5, 20.6, 21.8].forEach((volts, i) => {
      expect(stations[i]?.volts).toBeCloseTo(volts, 12);
      expect(stations[i]?.marginVolts).toBeCloseTo(volts - 21, 12);
    });
  });

  it('names the station that gets least, wherever it is drawn', () => {
    expect(surveyTrunk(teed, 21).last?.node).toBe(2);
  });

  it('has no last station where there is none', () => {
    expect(surveyTrunk({ ...teed, nodes: [] }, 21).last).toBeNull();
  });

  it('refuses a minimum that is no voltage', () => {
    expect(() => surveyTrunk(teed, -1)).toThrow('minimumVolts');
  });
});
