// Sites small enough to add up every assignment of, for every oracle of the locator.
import type { OracleRequest } from './oracle/request.js';
import { box, saw, station } from './request-builders.js';

/** Few modes, but one of each effect that matters, so that three nodes can be enumerated. */
export const FEW_MODES = {
  station: { dead: 0.02, 'volume-down': 0.05, 'short-supply': 0.01 },
  junction: { parted: 0.02, 'open-speech': 0.01, 'short-speech': 0.01, resistive: 0.02 },
  cablePerMetre: { 'open-supply': 2e-4, 'short-supply': 1e-4 },
} satisfies OracleRequest['rates'];

/** Fewer still, where several trunks or informants multiply what is to be added up. */
export const FEWEST_MODES = {
  headEnd: { power: 0.08, 'bell-source': 0.06 },
  station: { dead: 0.02, 'short-supply': 0.01 },
  junction: { parted: 0.02, 'open-speech': 0.01, resistive: 0.02 },
  cablePerMetre: { 'short-supply': 1e-4 },
} satisfies OracleRequest['rates'];

export const OPENS_AND_SHORTS: OracleRequest['rates'] = {
  station: { dead: 0.02, 'short-supply': 0.01 },
  junction: { 'open-return': 0.02, 'open-select': 0.02, 'short-select': 0.01 },
  cablePerMetre: { 'short-speech': 3e-4, 'open-supply': 1e-4 },
};

/** By what each is about. */
export const SMALL_CASES: readonly [about: string, request: OracleRequest][] = [
  [
    'one station, every mode, no evidence',
    {
      trunks: [{ id: 'A', nodes: [station('A1', 18)] }],
      exposureDays: 91,
    },
  ],
  [
    'one station, every mode, every function told about, one of them twice',
    {
      trunks: [{ id: 'A', nodes: [station('A1', 18)] }],
      exposureDays: 365,
      observations: [
        saw('A1', 'lamp', 'works', 'technician'),
        saw('A1', 'announcement', 'fails'),
        saw('A1', 'announcement', 'weak', 'technician'),
        saw('A1', 'bell', 'fails', 'caller'),
        saw('A1', 'music', 'weak'),
        saw('A1', 'room-call', 'fails', 'caller'),
        saw('A1', 'talkback', 'works', 'other'),
      ],
    },
  ],
  [
    'two stations in a row, every mode of what lies between, conflicting evidence',
    {
      trunks: [{ id: 'A', nodes: [station('A1', 18), station('A2', 9.5)] }],
      exposureDays: 182.5,
      rates: { station: FEW_MODES.station },
      observations: [
        saw('A1', 'announcement', 'works'),
        saw('A2', 'announcement', 'fails'),
        saw('A2', 'lamp', 'weak', 'technician'),
        saw('A1', 'talkback', 'fails', 'technician'),
      ],
    },
  ],
  [
    'two stations from one junction box, with rooms not mentioned',
    {
      trunks: [{ id: 'A', nodes: [box('T', 30), station('A1', 4, 'T'), station('A2', 5, 'T')] }],
      exposureDays: 400,
      rates: FEW_MODES,
      observations: [saw('A1', 'bell', 'fails')],
      unmentioned: { reportRate: 0.3, functions: ['bell', 'talkback'] },
    },
  ],
  [
    'a tee at a station, with shorts and opens that hide them',
    {
      trunks: [{ id: 'A', nodes: [station('A1', 12), station('A2', 8), station('A3', 15, 'A1')] }],
      exposureDays: 700,
      rates: OPENS_AND_SHORTS,
      observations: [
        saw('A1', 'lamp', 'works', 'technician'),
        saw('A2', 'talkback', 'fails'),
        saw('A3', 'announcement', 'fails'),
      ],
    },
  ],
  [
    'three first spans of one port',
    {
      trunks: [
        {
          id: 'A',
          nodes: [station('A1', 12), station('A2', 8, null), station('A3', 15, null)],
        },
      ],
      exposureDays: 500,
      rates: OPENS_AND_SHORTS,
      observations: [saw('A2', 'lamp', 'fails', 'x'), saw('A3', 'lamp', 'works', 'x')],
    },
  ],
  [
    'three stations in a row, weak feeds, an own exposure, a node listed before its feeder',
    {
      trunks: [
        {
          id: 'A',
          nodes: [
            station('A3', 9, 'A2'),
            { ...station('A1', 20, null), exposureDays: 30 },
            { ...station('A2', 14, 'A1'), exposureDays: 1000 },
          ],
        },
      ],
      exposureDays: 365.25,
      rates: FEWEST_MODES,
      observations: [
        saw('A3', 'music', 'weak', 'technician'),
        saw('A2', 'announcement', 'weak'),
        saw('A1', 'music', 'works'),
      ],
      unmentioned: { reportRate: 0.9, functions: ['lamp'] },
    },
  ],
];
