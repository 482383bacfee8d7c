import { describe, expect, it } from '@jest/globals';
import { locate } from '#app/locator/index.js';
import { expectExplanations } from './explanation-agreement.js';
import type { OracleRequest } from './oracle/request.js';
import {
  box,
  continuity,
  ELECTRICAL,
  LONG_TEE,
  loop,
  ROW,
  saw,
  station,
  TEE,
  TOLD_BY_CALLERS,
  volts,
} from './request-builders.js';
import { cases } from '../support/thorough.js';

/** Few modes, so that three nodes can be enumerated. */
const OPENS: OracleRequest['rates'] = {
  headEnd: { power: 0.05 },
  station: { dead: 0.02 },
  junction: { parted: 0.02, 'open-return': 0.03 },
  cablePerMetre: { 'open-supply': 1e-3, resistive: 1e-3 },
};
const SHORTS: OracleRequest['rates'] = {
  headEnd: { 'bell-source': 0.05 },
  station: { 'short-supply': 0.02 },
  junction: { parted: 0.02, 'short-supply': 0.02 },
  cablePerMetre: { 'short-supply': 1e-3 },
};
const SPEECH: OracleRequest['rates'] = {
  headEnd: {},
  station: { speaker: 0.02 },
  junction: { 'open-return': 0.02, 'short-speech': 0.02 },
  cablePerMetre: { 'short-speech': 1e-3 },
};

describe('explanations with readings agree to nine digits with adding up every assignment', () => {
  it('continuity to a station, every mode', () => {
    expectExplanations({
      trunks: [{ id: 'A', nodes: [station('A1', 18)] }],
      exposureDays: 365,
      observations: [saw('A1', 'announcement', 'fails')],
      readings: [continuity(null, 'A1', ['supply', 'speech'], false)],
    });
  });

  it('continuity along a row, from and to nodes that nothing was told of', () => {
    expectExplanations({
      trunks: [{ id: 'A', nodes: ROW }],
      exposureDays: 365,
      rates: OPENS,
      observations: [saw('A2', 'announcement', 'works'), saw('A3', 'lamp', 'fails')],
      readings: [
        continuity('A1', 'A3', ['supply', 'return'], false),
        continuity(null, 'A2', ['supply'], true),
      ],
    });
  });

  it('continuity past the last room told about', () => {
    const request = {
      trunks: [{ id: 'A', nodes: ROW }],
      exposureDays: 365,
      rates: OPENS,
      electrical: ELECTRICAL,
      observations: [saw('A1', 'bell', 'works')],
      readings: [continuity('A1', 'A3', ['return'], false), volts('A1', 22)],
    };
    expectExplanations(request, undefined, 20);
  });

  it('a loop read near, in a cable, at a station, nowhere', () => {
    for (const ohms of [0.02, 1.086, 3.439])
      expectExplanations({
        trunks: [{ id: 'A', nodes: ROW }],
        exposureDays: 365,
        rates: SHORTS,
        electrical: ELECTRICAL,
        observations: [saw('A1', 'lamp', 'fails'), saw('A2', 'bell', 'works')],
        readings: [loop('supply', ohms)],
      });
  });

  it('shorts in both branches of a tee: the nearer one decides', () => {
    for (const ohms of [1.4, 2.2])
      expectExplanations({
        trunks: [{ id: 'A', nodes: LONG_TEE }],
        exposureDays: 365,
        rates: SPEECH,
        electrical: ELECTRICAL,
        observations: [saw('A1', 'announcement', 'fails'), saw('A2', 'announcement', 'fails')],
        readings: [loop('speech', ohms, 0.2)],
      });
  });

  it('branches of a tee and of the port that nothing is known of', () => {
    expectExplanations({
      trunks: [
        { id: 'A', nodes: [station('A1', 40), station('A2', 21, 'A1'), station('A3', 60, null)] },
      ],
      exposureDays: 365,
      rates: SHORTS,
      electrical: ELECTRICAL,
      observations: [saw('A1', 'lamp', 'fails')],
      readings: [loop('supply', 1.6, 0.3), continuity('A1', 'A2', ['supply'], true)],
    });
  });

  it('continuity and volts over a tee with both branches told about, and another trunk', () => {
    expectExplanations({
      trunks: [
        { id: 'A', nodes: TEE },
        { id: 'B', nodes: [station('B1', 120)] },
      ],
      exposureDays: 700,
      rates: OPENS,
      electrical: ELECTRICAL,
      observations: [
        saw('A1', 'bell', 'fails', 'p'),
        saw('A2', 'bell', 'fails'),
        saw('B1', 'bell', 'works', 'p', 'B'),
      ],
      readings: [
        continuity(null, 'A1', ['supply', 'select'], false),
        continuity('T', 'A2', ['supply'], true),
        continuity(null, 'T', ['return'], true),
        continuity(null, 'B1', ['supply', 'return'], false, 'B'),
        volts('A2', 0.1),
      ],
    });
  });

  it('two loops, continuity and volts, with informants who may be confused', () => {
    expectExplanations({
      ...TOLD_BY_CALLERS,
      rates: {
        headEnd: { power: 0.05 },
        station: { 'short-supply': 0.02 },
        junction: cases<Record<string, number>>({
          all: { 'short-supply': 0.01, 'open-return': 0.02 },
          usual: { 'open-return': 0.02 },
        }),
        cablePerMetre: { 'short-speech': 1e-3 },
      },
      readings: [
        loop('supply', 1.7, 0.2),
        loop('speech', 2.1, 0.1),
        continuity('A1', 'A2', ['speech', 'supply'], true),
        volts('A3', 23),
      ],
    });
  });
});

describe('readings that overlap in too many ways', () => {
  const branches = (count: number) => {
    const names = ['B', 'C', 'D'].slice(0, count);
    return locate({
      begunBy: 'round',
      explanations: 3,
      trunks: [
        {
          id: 'A',
          nodes: [
            box('T', 10),
            ...names.flatMap((b) => [station(`${b}1`, 10, 'T'), station(`${b}2`, 10, `${b}1`)]),
          ],
        },
      ],
      exposureDays: 91,
      observations: names.map((b) => saw(`${b}1`, 'lamp', 'fails')) as never,
      readings: names.flatMap((b) =>
        ['supply', 'speech', 'select'].map((core) => continuity('T', `${b}2`, [core], true)),
      ) as never,
    });
  };

  it('leave the explanations out, and nothing else', () => {
    expect(branches(2).explanations).toHaveLength(3);
    const { explanations, uncovered, explanationsLeftOut, places } = branches(3);
    expect({ explanations, uncovered, explanationsLeftOut }).toEqual({ explanationsLeftOut: true });
    expect(places).toHaveLength(2 + 7 + 6);
  });
});

describe('explanations on a long trunk', () => {
  it('name the span that a loop reading points at', () => {
    const nodes = Array.from({ length: 40 }, (_, n) => station(`A${n + 1}`, 10));
    const { explanations = [] } = locate({
      begunBy: 'round',
      trunks: [{ id: 'A', nodes }],
      exposureDays: 91,
      electrical: ELECTRICAL,
      observations: [saw('A40', 'lamp', 'fails'), saw('A1', 'lamp', 'fails')] as never,
      readings: [loop('supply', 7.42, 0.05), continuity(null, 'A1', ['return'], true)] as never,
    });
    expect(explanations).toHaveLength(10);
    // 7.42 ohms at 18.1 ohms a kilometre and core: 205 m, in the cable into the 21st of nodes 10 m apart.
    expect(explanations[0]?.likely[0]?.place).toMatchObject({ kind: 'span', to: 'A21' });
  });
});
