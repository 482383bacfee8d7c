import { describe, expect, it } from '@jest/globals';
import { locate } from '#app/locator/index.js';
import { named } from './compare.js';
import { genericPosterior } from './generic-elimination.js';
import { enumeratePosterior } from './oracle/posterior.js';
import type { OracleRequest } from './oracle/request.js';
import { FEW_MODES } from './small-cases.js';

const small: OracleRequest = {
  rates: FEW_MODES,
  trunks: [
    {
      id: 'A',
      nodes: [
        { id: 'A1', kind: 'station', cableMetres: 18 },
        { id: 'A2', kind: 'station', cableMetres: 9 },
      ],
    },
  ],
  exposureDays: 300,
  observations: [
    {
      trunk: 'A',
      node: 'A2',
      function: 'bell',
      outcome: 'fails',
      informant: { id: 'p', kind: 'office' },
    },
    {
      trunk: 'A',
      node: 'A1',
      function: 'lamp',
      outcome: 'works',
      informant: { id: 'p', kind: 'office' },
    },
  ],
};

/** Five stations, two tees, every mode: too many assignments to list. */
const tree: OracleRequest = {
  trunks: [
    {
      id: 'A',
      nodes: [
        { id: 'A1', kind: 'station', cableMetres: 18 },
        { id: 'T1', kind: 'junction-box', cableMetres: 6 },
        { id: 'A2', kind: 'station', cableMetres: 9 },
        { id: 'A4', kind: 'station', cableMetres: 30, fedFrom: 'T1' },
        { id: 'A5', kind: 'station', cableMetres: 3, fedFrom: 'A4', exposureDays: 800 },
        { id: 'A6', kind: 'station', cableMetres: 5, fedFrom: 'A4' },
      ],
    },
  ],
  exposureDays: 182,
  observations: [
    { trunk: 'A', node: 'A2', function: 'announcement', outcome: 'fails' },
    { trunk: 'A', node: 'A6', function: 'announcement', outcome: 'fails' },
    { trunk: 'A', node: 'A1', function: 'lamp', outcome: 'works' },
    {
      trunk: 'A',
      node: 'A5',
      function: 'lamp',
      outcome: 'weak',
      informant: { kind: 'technician' },
    },
    {
      trunk: 'A',
      node: 'A2',
      function: 'talkback',
      outcome: 'fails',
      informant: { id: 'p', kind: 'office' },
    },
    {
      trunk: 'A',
      node: 'A6',
      function: 'bell',
      outcome: 'works',
      informant: { id: 'p', kind: 'office' },
    },
  ],
};

function expectModes(
  generic: Record<string, number>,
  numbers: Record<string, number>,
  component: string,
): void {
  const sum = Object.values(generic).reduce((a, b) => a + b, 0);
  expect(Math.abs(sum - 1)).toBeLessThan(1e-9);
  for (const [mode, chance] of Object.entries(generic))
    expect(Math.abs(chance - (numbers[`${component} ${mode}`] ?? 0))).toBeLessThan(1e-9);
}

describe('generic elimination over dictionaries', () => {
  it('agrees with enumeration where that can reach', () => {
    const oracle = enumeratePosterior({ ...small, begunBy: 'round' });
    const { logEvidence, modes } = genericPosterior(small, ['H']);
    expect(Math.abs(logEvidence - oracle.logEvidence)).toBeLessThan(1e-9);
    expectModes(modes[0]!, oracle.modes, 'head-end head-end');
  });

  it('agrees with the locator on a larger tree with every mode', () => {
    const numbers = named(locate({ ...tree, begunBy: 'round', explanations: 0 }));
    const { logEvidence, modes } = genericPosterior(tree, ['H', 'S A A6']);
    expect(Math.abs(logEvidence - (numbers.logEvidence ?? 0))).toBeLessThan(1e-9);
    expectModes(modes[0]!, numbers, 'head-end head-end');
    expectModes(modes[1]!, numbers, 'station A A6 station');
  });
});
