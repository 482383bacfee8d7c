import { describe, expect, it } from '@jest/globals';
import { InvalidLocateRequest, locate } from '#app/locator/index.js';
import { expectAgreement } from './compare.js';
import type { OracleRequest } from './oracle/request.js';
import {
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

/** Few modes, so that three nodes can be enumerated with every component apart. */
const SHORTS: OracleRequest['rates'] = {
  headEnd: { power: 0.05, 'bell-source': 0.05 },
  station: { 'short-supply': 0.02 },
  junction: { parted: 0.02, 'short-supply': 0.02 },
  cablePerMetre: { 'short-supply': 1e-3 },
};
const SPEECH: OracleRequest['rates'] = {
  headEnd: { amplifier: 0.05 },
  station: { speaker: 0.02 },
  junction: { 'open-return': 0.02, 'short-speech': 0.02 },
  cablePerMetre: { 'short-speech': 1e-3, resistive: 1e-3 },
};
const OPENS: OracleRequest['rates'] = {
  headEnd: { power: 0.05 },
  station: {},
  junction: { parted: 0.02, 'open-return': 0.03, resistive: 0.03 },
  cablePerMetre: { 'open-supply': 1e-3, 'open-select': 2e-3 },
};

describe('readings agree to nine digits with adding up every assignment', () => {
  it('supply volts of every kind of feed at one station, every mode', () => {
    for (const value of [0, 0.3, 11, 23.6, 24.2, 35])
      expectAgreement({
        trunks: [{ id: 'A', nodes: [station('A1', 180)] }],
        exposureDays: 365,
        electrical: ELECTRICAL,
        observations: [saw('A1', 'lamp', 'weak')],
        readings: [volts('A1', value)],
      });
  });

  it('supply volts at stations and boxes of two trunks, with a caller who may be confused', () => {
    expectAgreement({
      trunks: [
        { id: 'A', nodes: TEE },
        { id: 'B', nodes: [station('B1', 120), station('B2', 30)] },
      ],
      exposureDays: 365,
      rates: OPENS,
      electrical: { ...ELECTRICAL, celsius: 35 },
      observations: [
        saw('A1', 'announcement', 'fails', 'mara'),
        saw('B2', 'announcement', 'fails', 'mara', 'B'),
        saw('A2', 'lamp', 'works', 'technician'),
      ],
      readings: [
        volts('T', 23.4),
        volts('A1', 0.02),
        volts('A1', 0.4, 0.2),
        volts('B1', 17, 0.1, 'B'),
        volts('B2', 16.5, 0.1, 'B'),
      ],
    });
  });

  it('continuity along a row: nested, overlapping, the same twice, said differently', () => {
    expectAgreement({
      trunks: [{ id: 'A', nodes: ROW }],
      exposureDays: 365,
      rates: OPENS,
      observations: [saw('A2', 'announcement', 'works'), saw('A3', 'talkback', 'fails')],
      readings: [
        continuity(null, 'A2', ['supply'], true),
        continuity('A1', 'A3', ['supply', 'return'], false),
        continuity('A1', 'A3', ['supply', 'return'], false),
        continuity('A1', 'A3', ['return', 'supply'], true),
        continuity('A1', 'A2', ['select', 'speech'], true),
        continuity('A2', 'A3', ['select'], false),
      ],
    });
  });

  it('continuity over a tee and on two trunks', () => {
    expectAgreement({
      trunks: [
        { id: 'A', nodes: TEE },
        { id: 'B', nodes: [station('B1', 120)] },
      ],
      exposureDays: 700,
      rates: OPENS,
      electrical: ELECTRICAL,
      observations: [saw('A1', 'bell', 'fails', 'p'), saw('B1', 'bell', 'works', 'p', 'B')],
      readings: [
        continuity(null, 'A1', ['supply', 'select'], false),
        continuity('T', 'A2', ['supply'], true),
        continuity(null, 'T', ['return'], true),
        continuity(null, 'B1', ['supply', 'speech', 'select', 'return'], false, 'B'),
        volts('A2', 0.1),
      ],
    });
  });

  it('a loop read along a row: near, in a cable, at a station, nowhere', () => {
    for (const ohms of [0.02, 0.7, 1.086, 3.439, 5.1])
      expectAgreement({
        trunks: [{ id: 'A', nodes: ROW }],
        exposureDays: 365,
        rates: SHORTS,
        electrical: ELECTRICAL,
        observations: [saw('A1', 'lamp', 'fails'), saw('A2', 'bell', 'works')],
        readings: [loop('supply', ohms)],
      });
  });

  it('loops of one core read several times share one short', () => {
    expectAgreement({
      trunks: [{ id: 'A', nodes: ROW }],
      exposureDays: 365,
      rates: SHORTS,
      electrical: ELECTRICAL,
      readings: [
        loop('supply', 1.5),
        loop('supply', 1.58, 0.2),
        loop('supply', 3.1),
        loop('speech', 2, 0.5),
      ],
    });
  });

  it('a tee with shorts in both branches: the nearer one decides', () => {
    for (const ohms of [1.4, 2.2, 3.3])
      expectAgreement({
        trunks: [{ id: 'A', nodes: LONG_TEE }],
        exposureDays: 365,
        rates: SPEECH,
        electrical: ELECTRICAL,
        observations: [saw('A1', 'announcement', 'fails'), saw('A2', 'announcement', 'fails')],
        readings: [loop('speech', ohms, 0.2)],
      });
  });

  it('three first spans of one port, two alike, a short of a station', () => {
    expectAgreement({
      trunks: [
        {
          id: 'A',
          nodes: [station('A1', 30, null), station('A2', 30, null), station('A3', 70, null)],
        },
      ],
      exposureDays: 500,
      rates: SHORTS,
      electrical: ELECTRICAL,
      observations: [saw('A3', 'lamp', 'fails')],
      readings: [loop('supply', 1.09, 0.3)],
    });
  });

  it('two loops, continuity and volts over a tee, with informants who may be confused', () => {
    expectAgreement({
      ...TOLD_BY_CALLERS,
      rates: {
        headEnd: { power: 0.05 },
        station: { 'short-supply': 0.02 },
        junction: { 'short-supply': 0.01, 'open-return': 0.02 },
        cablePerMetre: cases<Record<string, number>>({
          all: { 'short-speech': 1e-3, parted: 1e-3 },
          usual: { 'short-speech': 1e-3 },
        }),
      },
      unmentioned: { reportRate: 0.4, functions: ['bell'] },
      readings: [
        loop('supply', 1.7, 0.2),
        loop('speech', 2.1, 0.1),
        continuity('A1', 'A2', ['speech', 'supply'], true),
        continuity(null, 'A3', ['return'], true),
        volts('A3', 23),
        volts('B1', 23.9, 0.05, 'B'),
      ],
    });
  });
});

describe('many readings', () => {
  const long = (count: number) => Array.from({ length: count }, (_, n) => station(`A${n + 1}`, 10));

  it('that contradict a hundred observations still give an answer', () => {
    const { places, logEvidence } = locate({
      trunks: [{ id: 'A', nodes: long(4) }],
      exposureDays: 91,
      electrical: ELECTRICAL,
      observations: Array.from({ length: 100 }, () => saw('A4', 'lamp', 'works') as never),
      readings: [
        ...Array.from({ length: 70 }, () => continuity('A1', 'A3', ['supply'], false)),
        ...Array.from({ length: 24 }, () => volts('A4', 0)),
      ] as never,
    });
    expect(Number.isFinite(logEvidence)).toBe(true);
    const station4 = places.filter(({ place }) => place.kind !== 'head-end');
    for (const { components } of station4)
      for (const { modes } of components)
        expect(Object.values(modes).reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
  });

  it('that overlap beyond the limit are refused by name, nested ones are not', () => {
    const nodes = long(30);
    const ask = (readings: ReturnType<typeof continuity>[]) => () =>
      locate({ trunks: [{ id: 'A', nodes }], exposureDays: 91, readings: readings as never });
    const nested = Array.from({ length: 25 }, (_, k) =>
      continuity(null, `A${k + 2}`, ['supply'], true),
    );
    expect(ask(nested)).not.toThrow();
    const cores = ['supply', 'return', 'speech', 'select'];
    const crossed = Array.from({ length: 20 }, (_, k) =>
      continuity(`A${k + 1}`, `A${30 - (k % 5)}`, [cores[k % 4]!], true),
    );
    expect(ask(crossed)).toThrow(InvalidLocateRequest);
  });

  it('a supply that collapses under its stations is refused by name', () => {
    const collapse = () =>
      locate({
        trunks: [{ id: 'A', nodes: long(30) }],
        exposureDays: 91,
        electrical: { ...ELECTRICAL, stationAmps: 3 },
        readings: [volts('A2', 20)],
      });
    expect(collapse).toThrow(/\/electrical: the supply collapses on trunk "A"/);
  });
});
