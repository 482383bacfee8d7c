import { describe, expect, it } from '@jest/globals';
import { oracleDrawing } from './oracle/drawing.js';
import { enumeratePosterior, oracleEvidence } from './oracle/posterior.js';
import type { OracleRequest } from './oracle/request.js';
import { saw, station } from './request-builders.js';

const RATES: OracleRequest['rates'] = {
  headEnd: { 'bell-source': 0.02 },
  station: { speaker: 0.02 },
  junction: { 'open-speech': 0.01 },
  cablePerMetre: { 'short-speech': 1e-5 },
};

const IN_A_ROW: OracleRequest = {
  trunks: [
    { id: 'A', nodes: ['A1', 'A2', 'A3', 'A4', 'A5'].map((id) => station(id, 9)) },
    { id: 'B', nodes: [station('B1', 20), station('B2', 4)] },
  ],
  exposureDays: 91,
  rates: RATES,
};

const observed = (outcomes: Record<string, string>): OracleRequest => ({
  ...IN_A_ROW,
  observations: Object.entries(outcomes).map(([node, outcome]) =>
    saw(node, 'bell', outcome, undefined, node[0]),
  ),
});

describe('other drawings of a trunk, added up', () => {
  it('silent rooms between heard ones are on a branch or at the end, rather than each dead by itself', () => {
    const told = observed({ A1: 'works', A2: 'fails', A3: 'fails', A4: 'fails', A5: 'works' });
    const request = {
      ...told,
      observations: told.observations!.flatMap((o) => [
        o,
        saw(o.node, 'bell', o.outcome, 'technician'),
      ]),
    };
    const { asDrawn, alternatives } = oracleDrawing(request);
    const found = Object.fromEntries(
      alternatives.map(({ kind, from, to, probability }) => [
        `${kind} ${from.join('..')} ${to.join('..')}`,
        probability,
      ]),
    );
    expect(Object.keys(found).sort()).toEqual([
      'branch A2..A2 A4..A4',
      'end A2..A2 A4..A4',
      'swapped A1..A1 A2..A2',
      'swapped A4..A4 A5..A5',
    ]);
    expect(found['branch A2..A2 A4..A4']).toBeGreaterThan(0.45);
    expect(found['end A2..A2 A4..A4']).toBeGreaterThan(0.45);
    expect(asDrawn).toBeLessThan(0.1);
  });

  it('a branch weighs what the site weighs that is drawn so, by its prior', () => {
    const request = observed({ A1: 'works', A2: 'fails', A3: 'fails', A4: 'works' });
    const { alternatives } = oracleDrawing(request);
    const find = (kind: string) => alternatives.find((one) => one.kind === kind)!;
    const drawnAs = (fedFrom: Record<string, string>) =>
      oracleEvidence({
        ...request,
        trunks: request.trunks.map(({ id, nodes }) => ({
          id,
          nodes: nodes.map((node) => ({ ...node, fedFrom: fedFrom[node.id] ?? node.fedFrom })),
        })),
      });
    const [branch, end] = [find('branch'), find('end')];
    // Six runs lie between the first room and the last.
    expect(branch.prior).toBeCloseTo(0.02 / 3 / 6, 15);
    expect(end.probability / branch.probability).toBeCloseTo(
      drawnAs({ A4: 'A1', A2: 'A5' }) / drawnAs({ A4: 'A1' }),
      9,
    );
  });

  it('a border among rooms that nobody told of is a range, with the priors added', () => {
    const { alternatives } = oracleDrawing(observed({ A1: 'works', A3: 'fails', A5: 'works' }));
    const { from, to, prior } = alternatives.find(({ kind }) => kind === 'branch')!;
    expect({ from, to }).toEqual({ from: ['A2', 'A3'], to: ['A3', 'A4'] });
    expect(prior).toBeCloseTo((4 * 0.02) / 3 / 6, 15);
  });

  it('the drawing is not doubted where nothing told changes on the way', () => {
    const all = observed({ A1: 'fails', A2: 'fails', A3: 'fails', A4: 'fails', A5: 'fails' });
    expect(oracleDrawing(all)).toEqual({ asDrawn: 1, alternatives: [] });
  });

  it('swapped names take what was told along, and the metres stay', () => {
    const metres = [5, 80];
    const rates = { ...RATES, junction: {}, cablePerMetre: { 'open-speech': 2e-4 } };
    const drawn = (first: string, second: string): OracleRequest => ({
      trunks: [{ id: 'A', nodes: [station(first, metres[0]!), station(second, metres[1]!)] }],
      exposureDays: 91,
      rates,
      observations: [saw('A1', 'bell', 'fails'), saw('A2', 'bell', 'works')],
    });
    const { asDrawn, alternatives } = oracleDrawing(drawn('A1', 'A2'));
    const [swapped] = alternatives;
    const odds =
      ((0.02 / 3) * oracleEvidence(drawn('A2', 'A1'))) /
      ((1 - 0.02 / 3) * oracleEvidence(drawn('A1', 'A2')));
    expect(swapped!.probability / asDrawn).toBeCloseTo(odds, 9);
    expect(enumeratePosterior(drawn('A2', 'A1')).logEvidence).toBeGreaterThan(
      enumeratePosterior(drawn('A1', 'A2')).logEvidence,
    );
  });
});
