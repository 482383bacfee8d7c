import type { OracleRequest } from '../oracle/request.js';
import { type Asked, faultNetwork, RECORDED_RATES } from './fault-network.js';
import type { BayesNetwork } from './bayes-network.js';

interface Case {
  request: OracleRequest;
  /** What else to ask: P(variable = value | evidence), by the names that a located answer is compared by. */
  asked: [variable: string, value: string][];
}

type Trunk = OracleRequest['trunks'][number];
type Observation = NonNullable<OracleRequest['observations']>[number];

function row(id: string, stations: number): Trunk {
  return {
    id,
    nodes: Array.from({ length: stations }, (_, n) => ({
      id: `S${n + 1}`,
      kind: 'station' as const,
      cableMetres: 8 + ((n * 7) % 13),
    })),
  };
}

/** Stations of which some are fed from a node other than the one before them. */
function tree(id: string, feeders: Record<string, string | null>, boxes: string[]): Trunk {
  return {
    id,
    nodes: Object.entries(feeders).map(([node, fedFrom], n) => ({
      id: node,
      kind: boxes.includes(node) ? ('junction-box' as const) : ('station' as const),
      fedFrom,
      cableMetres: 5 + ((n * 11) % 17),
      ...(n % 4 === 3 && { exposureDays: 400 }),
    })),
  };
}

/** "S3 bell fails" */
function told(trunk: string, words: string[], informant?: Observation['informant']): Observation[] {
  return words.map((line) => {
    const [node = '', name = '', outcome = ''] = line.split(' ');
    return { trunk, node, function: name, outcome, ...(informant && { informant }) };
  });
}

const caller = (id: string) => ({ id, kind: 'office' });

const FUNCTIONS = ['lamp', 'announcement', 'bell', 'music', 'room-call', 'talkback'];

const NINE = {
  ...{ S1: null, J1: 'S1', S2: 'J1', S3: 'S2', S4: 'J1', J2: 'S4', S5: 'J2', S6: 'J2', S7: 'S6' },
  ...{ S8: null, S9: 'S8' },
};

const TWENTY: Record<string, string | null> = Object.fromEntries(
  Array.from({ length: 20 }, (_, n) => {
    const feeder = n % 6 === 5 ? n - 3 : n;
    return [`S${n + 1}`, n === 0 ? null : `S${feeder}`];
  }),
);

/** What toulbar2 was run on: 6 to 20 stations; every kind of evidence, informant and drawing. */
const recordedRates = (request: OracleRequest): OracleRequest => ({
  ...request,
  rates: { station: RECORDED_RATES.station, ...request.rates },
});

const SITES: Readonly<Record<string, Case>> = {
  'six-row': {
    request: {
      trunks: [row('A', 6)],
      exposureDays: 91,
      observations: told('A', ['S2 bell works', 'S4 bell fails', 'S5 bell fails', 'S6 lamp works']),
    },
    asked: [
      ['span A S4 junction-in', 'open-speech'],
      ['head-end head-end', 'bell-source'],
      ['A S3 bell', 'dead'],
    ],
  },
  'nine-with-tees': {
    request: {
      trunks: [tree('A', NINE, ['J1', 'J2'])],
      exposureDays: 182,
      observations: [
        ...told('A', ['S5 announcement fails', 'S7 announcement fails', 'S3 announcement weak']),
        ...told('A', ['S9 lamp works'], { kind: 'technician' }),
      ],
      unmentioned: { reportRate: 0.3, functions: ['announcement', 'lamp'] },
    },
    asked: [
      ['span A J2 cable', 'parted'],
      ['station A S4 station', 'volume-down'],
      ['A S6 announcement', 'dead'],
    ],
  },
  'twelve-two-callers': {
    request: {
      trunks: [row('A', 12)],
      exposureDays: 365,
      observations: [
        ...told('A', ['S3 bell works', 'S6 bell fails', 'S9 bell works'], caller('first')),
        ...told('A', ['S7 announcement fails', 'S8 lamp works'], caller('second')),
        ...told('A', ['S6 lamp weak', 'S12 lamp weak'], { kind: 'technician' }),
        ...told('A', ['S10 talkback fails']),
      ],
    },
    asked: [
      ['span A S6 junction-out', 'resistive'],
      ['A S11 bell', 'dead'],
    ],
  },
  'two-trunks': {
    request: {
      trunks: [row('A', 6), tree('B', { S1: null, S2: 'S1', S3: 'S1', S4: 'S3', S5: 'S3' }, [])],
      exposureDays: 91,
      observations: [
        ...told('A', ['S1 bell fails', 'S6 bell fails', 'S2 announcement works'], caller('one')),
        ...told('B', ['S2 bell fails', 'S4 lamp fails', 'S5 lamp works'], caller('one')),
        ...told('B', ['S1 lamp works']),
      ],
    },
    asked: [
      ['head-end head-end', 'bell-source'],
      ['port B port', 'no-output'],
      ['B S4 lamp', 'dead'],
    ],
  },
  'twenty-row': {
    request: {
      trunks: [row('A', 20)],
      exposureDays: 91,
      observations: Array.from({ length: 20 }, (_, n) => ({
        trunk: 'A',
        node: `S${n + 1}`,
        function: FUNCTIONS[n % FUNCTIONS.length]!,
        outcome: n > 12 ? 'fails' : 'works',
      })),
    },
    asked: [
      ['span A S14 cable', 'parted'],
      ['A S13 talkback', 'dead'],
    ],
  },
  'twenty-with-tees': {
    request: {
      trunks: [tree('A', TWENTY, ['S3'])],
      exposureDays: 250,
      rates: {
        junction: {
          ...{ parted: 0.002, 'open-supply': 0.001, 'open-return': 0.001, 'open-speech': 0.001 },
          ...{ 'open-select': 0.001, 'short-supply': 0.001, 'short-speech': 0.002 },
          ...{ 'short-select': 0.001, resistive: 0.003 },
        },
      },
      observations: [
        ...told('A', ['S20 announcement fails', 'S4 announcement fails'], caller('one')),
        ...told('A', ['S20 lamp works', 'S9 lamp works', 'S12 bell fails']),
        ...told('A', ['S2 music fails', 'S15 room-call fails']),
      ],
    },
    asked: [
      ['span A S1 junction-in', 'short-speech'],
      ['station A S2 station', 'speaker'],
    ],
  },
};

/** For explanations: trunks without tees, nobody who may be confused, stretches of which nothing is known. */
export const CASES: Readonly<Record<string, Case>> = Object.fromEntries(
  Object.entries(SITES).map(([name, one]) => [
    name,
    { ...one, request: recordedRates(one.request) },
  ]),
);

const EXPLAINED_SITES: Readonly<Record<string, OracleRequest>> = {
  'six-row': SITES['six-row']!.request,
  'twelve-row': {
    trunks: [row('A', 12)],
    exposureDays: 365,
    observations: [
      ...told('A', ['S3 bell works', 'S6 bell fails', 'S9 bell works', 'S8 lamp works']),
      ...told('A', ['S6 lamp weak', 'S12 lamp weak'], { kind: 'technician' }),
    ],
  },
  'twenty-row': {
    trunks: [row('A', 20)],
    exposureDays: 182,
    observations: [
      ...told('A', ['S2 talkback works', 'S7 announcement works', 'S11 talkback fails']),
      ...told('A', ['S14 announcement fails', 'S17 lamp works', 'S20 bell fails']),
    ],
  },
};

export const EXPLAINED: Readonly<Record<string, OracleRequest>> = Object.fromEntries(
  Object.entries(EXPLAINED_SITES).map(([name, request]) => [name, recordedRates(request)]),
);

export function networkOf({ request, asked }: Case): BayesNetwork {
  return faultNetwork(
    request,
    asked.flatMap(([variable]) => askedCondition(variable)),
  );
}

/** "A S3 bell" asks for a condition; a component's name is longer, or names no function. */
function askedCondition(variable: string): Asked[] {
  const [trunk = '', node = '', name = ''] = variable.split(' ');
  return FUNCTIONS.includes(name) ? [{ trunk, node, function: name }] : [];
}
