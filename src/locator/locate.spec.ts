import { describe, expect, it } from '@jest/globals';
import { locate } from './locate.js';
import { DEFAULT_ERROR_RATES, type ErrorRates } from '../plan/error-rates.js';
import { ImpossibleEvidence } from './request/errors.js';
import type { LocateRequest, RequestObservation } from './request/locate-request.js';

const row = (count: number): LocateRequest => ({
  trunks: [
    {
      id: 'A',
      nodes: Array.from({ length: count }, (_, n) => ({
        id: `A${n + 1}`,
        kind: 'station' as const,
        cableMetres: 10,
      })),
    },
  ],
  exposureDays: 91,
});

const heard = (
  node: string,
  outcome: 'works' | 'fails',
  kind: 'office' | 'technician' = 'office',
) =>
  ({
    trunk: 'A',
    node,
    function: 'bell',
    outcome,
    informant: { kind },
  }) satisfies RequestObservation;

const CERTAIN: ErrorRates = {
  office: { good: [1, 0, 0], weak: [1, 0, 0], dead: [0, 0, 1], confused: 0 },
  technician: DEFAULT_ERROR_RATES.technician,
};

describe('locate', () => {
  it('looks between the last room heard and the first silent one', () => {
    const result = locate({
      ...row(6),
      observations: [
        heard('A1', 'works'),
        heard('A3', 'works'),
        heard('A4', 'fails', 'technician'),
        { ...heard('A4', 'fails', 'technician'), function: 'lamp' },
        heard('A6', 'fails'),
      ],
    });
    expect(result.places[0]?.place).toEqual({ kind: 'span', trunk: 'A', from: 'A3', to: 'A4' });
    expect(result.places[0]?.probability).toBeGreaterThan(0.7);
  });

  it('lists every place, prediction and check of the site', () => {
    const result = locate(row(3));
    expect(result.places).toHaveLength(1 + 1 + 3 * 2);
    expect(result.predictions).toHaveLength(18);
    expect(result.checks).toHaveLength(18);
    expect(result.logEvidence).toBeCloseTo(0, 12);
  });

  it('names what cannot be true together when informants never err', () => {
    const request = {
      ...row(3),
      rates: { station: {} },
      observations: [
        heard('A1', 'works'),
        heard('A2', 'fails'),
        heard('A2', 'fails', 'technician'),
        heard('A3', 'works'),
      ],
    };
    let error: unknown;
    try {
      locate(request, CERTAIN);
    } catch (thrown) {
      error = thrown;
    }
    // Without station faults, A3 cannot hear what A2 does not; the technician may err.
    expect(error).toBeInstanceOf(ImpossibleEvidence);
    expect((error as ImpossibleEvidence).errors.map(({ pointer }) => pointer)).toEqual([
      '/observations/1',
      '/observations/3',
    ]);
  });

  it('says so when rooms not mentioned are impossible on their own', () => {
    const request = {
      ...row(1),
      rates: { headEnd: { power: 1e6 } },
      exposureDays: 36_525,
      unmentioned: { reportRate: 1, functions: ['lamp'] },
    };
    expect(() => locate(request)).toThrow('/unmentioned');
  });

  it('lets informants who overlap beyond the stated limit lose their identity, and none where they do not', () => {
    const people = Array.from({ length: 12 }, (_, p) => p);
    const tell = (node: string, p: number) => ({
      trunk: 'A',
      node,
      function: 'lamp' as const,
      outcome: 'works' as const,
      informant: { id: `p${p}`, kind: 'office' as const },
    });
    const dropped = (observations: ReturnType<typeof tell>[]) =>
      locate({ ...row(24), observations, explanations: 0 }).identitiesDropped;
    const overlapping = people.flatMap((p) => [tell('A1', p), tell('A8', p)]);
    expect(dropped(overlapping)).toHaveLength(2);
    // Ten of them over the whole row would be more tables than are spent on who may be confused.
    const wide = people.flatMap((p) => [tell('A1', p), tell('A24', p)]);
    expect(dropped(wide)).toHaveLength(3);
    const apart = people.flatMap((p) => [tell(`A${2 * p + 1}`, p), tell(`A${2 * p + 2}`, p)]);
    expect(dropped(apart)).toBeUndefined();
  });

  it('weighs checks by the error rates that are given', () => {
    const request = { ...row(3), observations: [heard('A2', 'fails')] };
    const sharp: ErrorRates = { ...DEFAULT_ERROR_RATES, technician: CERTAIN.office };
    const { checks, predictions } = locate(request, sharp);
    const usual = new Map(
      locate(request).checks.flatMap((one): [string, number][] =>
        one.kind === 'hear' ? [[`${one.node} ${one.function}`, one.informationBits]] : [],
      ),
    );
    const log2 = (p: number) => (p > 0 ? p * Math.log2(p) : 0);
    for (const check of checks) {
      if (check.kind !== 'hear') throw new Error('None of another kind was asked for.');
      const { node, function: name, informationBits } = check;
      expect(informationBits).toBeGreaterThan(usual.get(`${node} ${name}`) ?? NaN);
      // Who never errs tells whether it works at the least.
      const { works = NaN } =
        predictions.find((one) => one.node === node && one.function === name) ?? {};
      expect(informationBits).toBeGreaterThanOrEqual(-log2(works) - log2(1 - works) - 1e-9);
    }
  });

  it('keeps its footing where two days of evidence contradict each other hundreds of times', () => {
    // Everything near fails, everything far works: 300 times over. Doubles alone cannot hold both explanations.
    const nodes = Array.from({ length: 300 }, (_, n) => `A${n + 1}`);
    const observations = nodes.flatMap((node, n) => [
      heard(node, n < 150 ? 'fails' : 'works', 'technician'),
      { ...heard(node, n < 150 ? 'fails' : 'works', 'technician'), function: 'lamp' as const },
    ]);
    const result = locate({ ...row(300), observations });
    expect(Number.isFinite(result.logEvidence)).toBe(true);
    const [station] = result.places.filter(({ place }) => place.kind === 'station');
    const sum = Object.values(station?.components[0]?.modes ?? {}).reduce((a, b) => a + b, 0);
    expect(sum).toBeCloseTo(1, 9);
  });
});
