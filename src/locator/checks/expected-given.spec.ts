import { describe, expect, it } from '@jest/globals';
import { locate } from '../locate.js';
import { DEFAULT_ERROR_RATES } from '../../plan/error-rates.js';
import type { ExpectedFaults } from '../../plan/expected-faults.js';
import { DEFAULT_RATES } from '../../plan/rates.js';
import { expectedGiven } from './expected-given.js';

const EXPECTED: ExpectedFaults = {
  headEnd: { power: 0.3, selector: 0.2, microphone: 0.1 },
  trunks: [
    {
      id: 'A',
      port: DEFAULT_RATES.port,
      nodes: ['A1', 'A2'].map((id) => ({
        id,
        junctionOut: DEFAULT_RATES.junction,
        cable: DEFAULT_RATES.cablePerMetre,
        junctionIn: DEFAULT_RATES.junction,
        station: DEFAULT_RATES.station,
      })),
    },
  ],
};
const REQUEST = {
  trunks: [
    {
      id: 'A',
      nodes: ['A1', 'A2'].map((id) => ({ id, kind: 'station' as const, cableMetres: 10 })),
    },
  ],
  exposureDays: 91,
};

const modesOf = (expected: ExpectedFaults, kind: string, node?: string) =>
  locate(REQUEST, undefined, expected).places.find(
    ({ place }) => place.kind === kind && (!node || ('node' in place && place.node === node)),
  )!.components[0]!.modes;

const NOTHING = { settings: [], knobs: [] };

describe('what is expected once settings were looked at', () => {
  it('is the prior by Bayes: the head-end is on', () => {
    const before = modesOf(EXPECTED, 'head-end');
    const settings = [{ setting: 'power', wrong: false, kind: 'office' } as const];
    const after = modesOf(expectedGiven(EXPECTED, { ...NOTHING, settings }), 'head-end');
    const { good, dead } = DEFAULT_ERROR_RATES.office;
    const right = (1 - before.power!) * (1 - good[2]) + before.power! * (1 - dead[2]);
    expect(after.power).toBeCloseTo((before.power! * (1 - dead[2])) / right, 12);
    for (const mode of ['ok', 'selector', 'microphone'])
      expect(after[mode]).toBeCloseTo((before[mode]! * (1 - good[2])) / right, 12);
  });

  it('and of a knob that was down, in its room alone', () => {
    const before = modesOf(EXPECTED, 'station', 'A2');
    const knobs = [{ trunk: 'A', node: 'A2', wrong: true, kind: 'office' } as const];
    const given = expectedGiven(EXPECTED, { ...NOTHING, knobs });
    const after = modesOf(given, 'station', 'A2');
    const { good, dead } = DEFAULT_ERROR_RATES.office;
    const volume = before['volume-down']!;
    const wrong = (1 - volume) * good[2] + volume * dead[2];
    expect(after['volume-down']).toBeCloseTo((volume * dead[2]) / wrong, 12);
    expect(after.lamp).toBeCloseTo((before.lamp! * good[2]) / wrong, 12);
    const other = modesOf(given, 'station', 'A1')['volume-down'];
    expect(other).toBeCloseTo(modesOf(EXPECTED, 'station', 'A1')['volume-down']!, 12);
  });
});
