import { readFileSync } from 'node:fs';
import { describe, expect, it } from '@jest/globals';
import { solveTrunk } from '#app/locator/electrical/index.js';
import { CASES } from './cases.js';
import { netlist } from './netlist.js';
import { FOLDER, readRecorded } from './recorded.js';

const recorded = readRecorded();

// ngspice 39 (Debian), run as recorded.json says; .ci/run runs it again (check-ngspice.ts).
describe('the ladder against ngspice, to 1e-6 V', () => {
  it('has a recorded answer for every case', () => {
    expect(Object.keys(recorded.volts)).toEqual(Object.keys(CASES));
    expect(recorded.program).toMatch(/^ngspice-\d/);
  });

  it.each(Object.entries(CASES))('%s', (name, trunk) => {
    expect(readFileSync(new URL(`${name}.cir`, FOLDER), 'utf8')).toBe(netlist(name, trunk));
    const { nodeVolts } = solveTrunk(trunk);
    const volts = recorded.volts[name] ?? [];
    expect(volts).toHaveLength(trunk.nodes.length);
    volts.forEach((v, i) => expect(Math.abs((nodeVolts[i] ?? NaN) - v)).toBeLessThan(1e-6));
  });

  // published/values (read): the first case is the one printed there.
  it('repeats the published five', () => {
    const printed = [23.095, 22.54476, 21.89316, 21.73026, 21.5022];
    printed.forEach((v, i) => expect(recorded.volts['published-five']?.[i]).toBeCloseTo(v, 8));
  });
});
