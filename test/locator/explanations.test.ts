import { describe, expect, it } from '@jest/globals';
import { DEFAULT_ERROR_RATES, locate, type LocateRequest } from '#app/locator/index.js';
import fc from 'fast-check';
import { expectExplanations } from './explanation-agreement.js';
import { enumerateAnyFaulty } from './explanation-oracle.js';
import type { OracleExpectation, OracleRequest } from './oracle/request.js';
import { box, saw, station } from './request-builders.js';
import { FEW_MODES, FEWEST_MODES, OPENS_AND_SHORTS, SMALL_CASES } from './small-cases.js';
import { smallRequests } from './small-requests.js';
import { cases } from '../support/thorough.js';

const ELECTRICAL = { sourceVolts: 24, sourceOhms: 0.2, stationAmps: 0.08, coreOhmsPerKm: 18.1 };
const read = (node: string, volts: number, trunk = 'A') =>
  ({ kind: 'supply-volts', trunk, node, volts, uncertaintyVolts: 0.05 }) as const;

/** One station has every mode in any case. */
const EVERY_MODE_OR_FEW = cases<OracleRequest['rates']>({
  all: undefined,
  usual: { ...FEW_MODES, headEnd: FEWEST_MODES.headEnd },
});

describe('explanations agree to nine digits with adding up every assignment', () => {
  it.each(SMALL_CASES)('%s', (_, request) => {
    expectExplanations(request);
  });

  it('two stations in a row, the first not told about: one stretch', () => {
    expectExplanations({
      trunks: [{ id: 'A', nodes: [station('A1', 18), station('A2', 9.5)] }],
      exposureDays: 182.5,
      rates: EVERY_MODE_OR_FEW,
      observations: [saw('A2', 'announcement', 'fails'), saw('A2', 'lamp', 'fails')],
    });
  });

  it('two stations in a row, the second not told about: a plain end', () => {
    expectExplanations({
      trunks: [{ id: 'A', nodes: [station('A1', 18), station('A2', 9.5)] }],
      exposureDays: 182.5,
      rates: EVERY_MODE_OR_FEW,
      observations: [saw('A1', 'announcement', 'fails'), saw('A1', 'lamp', 'fails')],
    });
  });

  it('an informant who is confused in one explanation and hardly in the next, the room and what is below it being alike', () => {
    expectExplanations({
      trunks: [
        { id: 'A', nodes: [station('A0', 17)] },
        { id: 'B', nodes: [station('B0', 39)] },
      ],
      exposureDays: 400,
      rates: {
        port: { 'no-output': 0.02 },
        junction: { 'short-select': 0.018, 'open-return': 0.024, 'short-supply': 0.004 },
        cablePerMetre: { resistive: 5e-5, 'open-speech': 1e-5 },
        headEnd: { selector: 0.021 },
        station: { dead: 0.02 },
      },
      observations: [
        saw('A0', 'lamp', 'weak', 'q'),
        saw('B0', 'bell', 'fails', 'q', 'B'),
        saw('A0', 'talkback', 'fails', 'p'),
        { ...saw('B0', 'lamp', 'works', 'p', 'B'), informant: { kind: 'technician' } },
        { trunk: 'B', node: 'B0', function: 'room-call', outcome: 'weak' },
      ],
    });
  });

  it('informants who may be confused: at one room, along one trunk, over several trunks', () => {
    expectExplanations({
      trunks: [
        { id: 'B', nodes: [station('B1', 12), station('B2', 8)] },
        { id: 'A', nodes: [box('T', 5), station('A1', 4, 'T'), station('A2', 5, 'T')] },
        { id: 'C', nodes: [station('C1', 60)] },
      ],
      exposureDays: 365,
      rates: cases<OracleRequest['rates']>({
        all: { ...FEW_MODES, headEnd: { power: 0.1, 'bell-source': 0.05 } },
        usual: FEWEST_MODES,
      }),
      observations: [
        saw('A1', 'lamp', 'fails', 'p'),
        saw('B1', 'lamp', 'works', 'p', 'B'),
        saw('B2', 'bell', 'fails', 'p', 'B'),
        saw('A1', 'bell', 'fails', 'q'),
        saw('A2', 'bell', 'works', 'q'),
        saw('A2', 'bell', 'fails', 'r'),
        saw('A2', 'lamp', 'fails', 'r'),
        saw('C1', 'talkback', 'fails', 's', 'C'),
        saw('B2', 'talkback', 'works', 's', 'B'),
        saw('C1', 'announcement', 'weak', 'technician', 'C'),
      ],
    });
  });

  it('faults expected of each component by itself', () => {
    const expected: OracleExpectation = {
      headEnd: { power: 0.05, receiver: 0.01 },
      trunks: [
        {
          id: 'A',
          port: { 'no-output': 0.01 },
          nodes: ['A1', 'A2'].map((id, n) => ({
            id,
            junctionOut: { parted: 0.01 + n / 50, 'open-return': 0.02, resistive: 0.03 },
            cable: { 'open-speech': 0.05 / (n + 1), 'short-speech': 0.01 },
            junctionIn: { 'open-return': 0.01, 'short-supply': 0.002 },
            station: { dead: 0.03, 'short-supply': 0.01, 'volume-down': 0.1 },
          })),
        },
      ],
    };
    const nodes = [station('A1', 5), station('A2', 20)];
    const told = [saw('A2', 'bell', 'fails'), saw('A1', 'talkback', 'works', 'technician')];
    const request = { trunks: [{ id: 'A', nodes }], exposureDays: 100, observations: told };
    expectExplanations(request, expected);
    const unheard = { ...request, observations: told.slice(0, 1) };
    expectExplanations(unheard, expected);
  });

  it('volts of every kind of feed, with every mode', () => {
    for (const volts of [0.1, 12, 23.5])
      expectExplanations({
        trunks: [{ id: 'A', nodes: [station('A1', 180)] }],
        exposureDays: 365,
        electrical: ELECTRICAL,
        observations: [saw('A1', 'lamp', 'weak')],
        readings: [read('A1', volts)],
      });
  });

  it('volts at a box, at a tee and where nothing was told, with a caller who may be confused', () => {
    expectExplanations({
      trunks: [
        { id: 'A', nodes: [box('T', 60), station('A1', 40, 'T'), station('A2', 25, 'T')] },
        { id: 'B', nodes: [box('B1', 120), station('B2', 30)] },
      ],
      exposureDays: 365,
      rates: {
        headEnd: { power: 0.05 },
        station: { 'short-supply': 0.02 },
        junction: { 'open-return': 0.02, resistive: 0.03 },
        cablePerMetre: { 'open-supply': 1e-3, 'short-supply': 1e-3 },
      },
      electrical: ELECTRICAL,
      observations: [
        saw('A1', 'announcement', 'fails', 'mara'),
        saw('B2', 'announcement', 'fails', 'mara', 'B'),
      ],
      readings: [read('T', 23.4), read('A1', 0.02), read('A1', 0.4), read('B1', 17, 'B')],
    });
  });

  it('no exposure: one explanation, and nothing uncovered', () => {
    const request: OracleRequest = {
      trunks: [{ id: 'A', nodes: [station('A1', 18), station('A2', 0)] }],
      exposureDays: 0,
      observations: [saw('A2', 'bell', 'fails'), saw('A1', 'lamp', 'weak')],
    };
    expectExplanations(request);
    const { explanations, uncovered } = locate({ ...request, begunBy: 'round' });
    expect(explanations).toHaveLength(1);
    expect(explanations?.[0]?.probability).toBeCloseTo(1, 12);
    expect(uncovered).toBe(0);
  });
});

describe('explanations under κ', () => {
  it('agree in small requests of all kinds', () => {
    let complaints = 0;
    const requests = smallRequests({ without: ['disconnected'] });
    fc.assert(
      fc.property(requests, (request) => {
        expectExplanations(request, undefined, 15);
        const told = request.observations!.some(({ outcome }) => outcome !== 'works');
        if (request.begunBy === 'complaint' && told) complaints++;
      }),
      { seed: 54, numRuns: cases({ all: 60, usual: 5 }) },
    );
    expect(complaints).toBeGreaterThan(3);
  });

  it('all well and a wrong report leads before κ, and not after it', () => {
    const trunks = [{ id: 'A', nodes: [station('A1', 9), station('A2', 9), station('A3', 9)] }];
    const told = [
      saw('A1', 'bell', 'works'),
      saw('A2', 'bell', 'fails'),
      saw('A3', 'bell', 'works'),
    ];
    const stationFault = (begunBy: 'complaint' | 'round') => {
      const request = { trunks, exposureDays: 91, observations: told, begunBy, explanations: 1 };
      const [first] = locate(request).explanations!;
      return first!.likely.find(({ place }) => place.kind === 'station')?.probability ?? 0;
    };
    expect(stationFault('round')).toBeLessThan(0.4);
    expect(stationFault('complaint')).toBeGreaterThan(0.9);
  });
});

describe('error rates of 0', () => {
  it('leave no explanation in which something false was said', () => {
    const certain = {
      good: [1, 0, 0],
      weak: [0, 1, 0],
      dead: [0, 0, 1],
      confused: 0,
    } as const;
    const request: LocateRequest = {
      trunks: [{ id: 'A', nodes: [station('A1', 5), station('A2', 9), station('A3', 7)] }],
      exposureDays: 365,
      observations: [
        { trunk: 'A', node: 'A1', function: 'room-call', outcome: 'works' },
        { trunk: 'A', node: 'A3', function: 'lamp', outcome: 'fails' },
      ],
      explanations: 1000,
    };
    const rates = { ...DEFAULT_ERROR_RATES, office: certain };
    const { explanations = [], uncovered } = locate({ ...request, begunBy: 'round' }, rates);
    expect(explanations.length).toBeGreaterThan(10);
    expect(uncovered).toBe(0);
    expect(explanations.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 12);
    for (const { trunks } of explanations)
      expect(trunks[0]!.nodes[0]).toMatchObject({ node: 'A1', weak: false });
    for (const { trunks } of explanations)
      expect(trunks[0]!.nodes[0]!.feed).toEqual(['supply', 'speech', 'select', 'return']);
  });
});

describe('stretches', () => {
  it('have the chance of any faulty span, as adding up every assignment gives it', () => {
    const request: OracleRequest = {
      trunks: [
        { id: 'A', nodes: [station('A1', 12), station('A2', 8), box('A3', 15)] },
        { id: 'B', nodes: [station('B1', 9)] },
      ],
      exposureDays: 700,
      rates: OPENS_AND_SHORTS,
      observations: [
        saw('A2', 'lamp', 'fails', 'p'),
        saw('A2', 'bell', 'fails', 'p'),
        saw('B1', 'bell', 'works', 'p', 'B'),
      ],
    };
    const { stretches } = locate({ ...request, begunBy: 'round' });
    expect(stretches.map(({ spans }) => spans.map(({ to }) => to))).toEqual([
      ['A1', 'A2'],
      ['A3'],
      ['B1'],
    ]);
    for (const { trunk, probability, spans } of stretches) {
      const asked = spans.map(({ to }) => to);
      expect(probability).toBeCloseTo(enumerateAnyFaulty(request, trunk, asked), 10);
      expect(spans.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
    }
    expect(stretches[0]).toMatchObject({ from: null, to: 'A2' });
  });
});

describe('a long path', () => {
  const long = (told: LocateRequest['observations']): LocateRequest => ({
    trunks: [
      { id: 'A', nodes: Array.from({ length: 300 }, (_, n) => station(`A${n}`, 5 + (n % 7))) },
    ],
    exposureDays: 182,
    observations: told,
  });

  it('with every room told about has finite explanations', () => {
    const told = Array.from({ length: 300 }, (_, n) =>
      saw(`A${n}`, 'bell', n < 200 ? 'works' : 'fails'),
    );
    const { explanations = [], uncovered } = locate({
      ...long(told as LocateRequest['observations']),
      begunBy: 'round',
    });
    expect(explanations).toHaveLength(10);
    for (const { probability } of explanations) expect(probability).toBeGreaterThan(0);
    const [first] = explanations;
    const names = first!.likely.map(({ place }) => (place.kind === 'span' ? place.to : place.kind));
    expect(names).toEqual(['A200']);
    expect(uncovered).toBeGreaterThan(0);
  });

  it('with two rooms told about is one stretch between them', () => {
    const told = [saw('A180', 'lamp', 'works'), saw('A200', 'lamp', 'fails', 'technician')];
    const { stretches, explanations = [] } = locate({
      ...long(told as LocateRequest['observations']),
      begunBy: 'round',
    });
    expect(stretches[0]).toMatchObject({ from: 'A180', to: 'A200' });
    expect(stretches[0]!.spans).toHaveLength(20);
    expect(explanations[0]!.likely[0]!.place.kind).toBe('span');
  });
});
