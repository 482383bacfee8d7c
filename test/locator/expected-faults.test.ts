import { describe, expect, it } from '@jest/globals';
import { InvalidLocateRequest, locate } from '#app/locator/index.js';
import { seededRandom } from '../electrical/seeded-random.js';
import { expectAgreement } from './compare.js';
import type { OracleExpectation, OracleRequest } from './oracle/request.js';

const STATION = ['dead', 'volume-down', 'short-supply'];
const SPAN = ['parted', 'open-speech', 'open-select', 'short-speech', 'resistive'];

/** A table of its own for every component: each mode up to a tenth, some absent. */
function randomExpectation(request: OracleRequest, seed: number): OracleExpectation {
  const random = seededRandom(seed);
  const table = (modes: string[]) =>
    Object.fromEntries(
      modes.filter(() => random() < 0.8).map((mode) => [mode, random() < 0.1 ? 0 : random() / 10]),
    );
  return {
    headEnd: table(['power', 'bell-source', 'receiver']),
    trunks: request.trunks.map(({ id, nodes }) => ({
      id,
      port: table(['no-output']),
      nodes: nodes.map((node) => ({
        id: node.id,
        junctionOut: table(SPAN),
        cable: table(SPAN.slice(1)),
        junctionIn: table(SPAN.slice(0, 3)),
        station: table(STATION),
      })),
    })),
  };
}

const row: OracleRequest = {
  trunks: [
    {
      id: 'A',
      nodes: [
        { id: 'A1', kind: 'station', cableMetres: 5 },
        { id: 'A2', kind: 'station', cableMetres: 20 },
      ],
    },
    { id: 'B', nodes: [{ id: 'B1', kind: 'station', cableMetres: 5 }] },
  ],
  exposureDays: 100,
  observations: [
    { trunk: 'A', node: 'A2', function: 'bell', outcome: 'fails', informant: { kind: 'office' } },
    { trunk: 'A', node: 'A1', function: 'talkback', outcome: 'works' },
    { trunk: 'B', node: 'B1', function: 'bell', outcome: 'weak' },
  ],
};

describe('faults expected of each component by itself', () => {
  it.each([1, 2, 3])('agree to nine digits with adding up every assignment, case %d', (seed) => {
    expectAgreement(row, randomExpectation(row, seed));
  });

  it('go by rates and exposure where the site’s record leaves a place out', () => {
    const { headEnd, trunks } = randomExpectation(row, 4);
    const [first] = trunks;
    expectAgreement(row, { headEnd, trunks: [{ ...first!, nodes: first!.nodes.slice(1) }] });
  });

  it('are named where they cannot be', () => {
    const { trunks, headEnd } = randomExpectation(row, 5);
    const [a, b] = trunks;
    const nodes = [{ ...a!.nodes[0]!, id: 'A9', cable: { parted: Number.NaN } }];
    const wrong = {
      headEnd,
      trunks: [
        { ...a!, nodes },
        { ...b!, id: 'Z', port: {} },
      ],
    };
    const refused = () => locate(row, undefined, wrong);
    expect(refused).toThrow(InvalidLocateRequest);
    expect(refused).toThrow('/expectedFaults/trunks/0/nodes/0/id');
    expect(refused).toThrow('/expectedFaults/trunks/0/nodes/0/cable/parted');
    expect(refused).toThrow('/expectedFaults/trunks/1/id');
  });
});
