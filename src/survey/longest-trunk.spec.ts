import { describe, expect, it } from '@jest/globals';
import { longestTrunk, PlannedTrunk } from './longest-trunk.js';

const planned: PlannedTrunk = {
  sourceVolts: 24,
  sourceOhms: 0,
  loopOhmsPerMetre: 0.04,
  spacingMetres: 10,
  stationLoad: { kind: 'amps', amps: 0.1 },
};

describe('the longest trunk', () => {
  // n equal spans of R with equal currents I drop I·R·n(n+1)/2: 0.1 · 0.4 · n(n+1)/2 ≤ 4 for n = 13.
  it('is the largest n with I·R·n(n+1)/2 within the allowed drop', () => {
    const { stations, cableMetres, lastVolts } = longestTrunk(planned, 20);
    expect(stations).toBe(13);
    expect(cableMetres).toBe(130);
    expect(lastVolts).toBeCloseTo(24 - 0.04 * 91, 9);
  });

  it('counts the station that has exactly the minimum', () => {
    const exact = {
      ...planned,
      loopOhmsPerMetre: 0.025,
      stationLoad: { kind: 'amps', amps: 1 },
    } as const;
    expect(longestTrunk(exact, 23.25).stations).toBe(2); // 0.25 · 3 = 0.75 V, exact in binary
  });

  it('takes a collapse for too long', () => {
    const heavy = { ...planned, stationLoad: { kind: 'watts', watts: 5 } } as const;
    const { stations, lastVolts } = longestTrunk(heavy, 0.001);
    expect(stations).toBeGreaterThan(3);
    expect(lastVolts).toBeGreaterThan(12 - 3);
  });

  it('is none where not even one station works', () => {
    expect(longestTrunk(planned, 23.99)).toEqual({ stations: 0, cableMetres: 0, lastVolts: 24 });
  });

  it('refuses a load that never ends it', () => {
    const idle = { ...planned, stationLoad: { kind: 'amps', amps: 0 } } as const;
    expect(() => longestTrunk(idle, 20)).toThrow('stationLoad: 4096 stations would work');
    expect(() => longestTrunk({ ...planned, spacingMetres: 0 }, 20)).toThrow('spacingMetres');
  });
});
