import { describe, expect, it } from '@jest/globals';
import { SupplyTrunk } from './supply-trunk.js';
import { wireTrunk } from './wire-trunk.js';

const trunk: SupplyTrunk = {
  sourceVolts: 24,
  sourceOhms: 0.2,
  loopOhmsPerMetre: 0.04,
  nodes: [
    { parent: null, cableMetres: 10, load: { kind: 'amps', amps: 0.1 } },
    { parent: 0, cableMetres: 5, loopOhmsPerMetre: 0.02, jointOhms: 3 },
    { parent: 1, cableMetres: 20, load: { kind: 'watts', watts: 2 } },
  ],
};

describe('wiring a trunk', () => {
  it('adds cable and joint, and separates the kinds of load', () => {
    const wired = wireTrunk(trunk);
    expect(wired.feedOhms).toEqual([0.4, 3.1, 0.8]);
    expect(wired.parents).toEqual([-1, 0, 1]);
    expect(wired.constantAmps).toEqual([0.1, 0, 0]);
    expect(wired.constantWatts).toEqual([0, 0, 2]);
  });

  it.each([
    ['sourceVolts', { ...trunk, sourceVolts: -1 }],
    ['sourceOhms', { ...trunk, sourceOhms: Number.NaN }],
    ['loopOhmsPerMetre', { ...trunk, loopOhmsPerMetre: Infinity }],
    ['nodes/0/cableMetres', { ...trunk, nodes: [{ parent: null, cableMetres: -3 }] }],
    ['nodes/0/jointOhms', { ...trunk, nodes: [{ parent: null, cableMetres: 3, jointOhms: -1 }] }],
    [
      'nodes/0/load/watts',
      { ...trunk, nodes: [{ parent: null, cableMetres: 3, load: { kind: 'watts', watts: -1 } }] },
    ],
  ] as [string, SupplyTrunk][])('names %s', (field, bad) => {
    expect(() => wireTrunk(bad)).toThrow(expect.objectContaining({ code: 'invalid', field }));
  });
});
