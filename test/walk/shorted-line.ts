import { DEFAULT_RATES, type LocateRequest } from '#app/locator/index.js';
import { wordsIn } from '#app/words/index.js';

const SHORTS_ALONE: typeof DEFAULT_RATES = {
  ...DEFAULT_RATES,
  headEnd: {},
  port: {},
  station: { 'short-supply': 0.001 },
  junction: { 'short-supply': 0.0002 },
  cablePerMetre: { 'short-supply': 5e-6 },
};

export interface Line {
  rooms: number;
  /** Left out: shorts of the supply alone. */
  rates?: LocateRequest['rates'];
  /** By room, from 1. */
  outcome?: (room: number) => 'works' | 'fails';
}

/** One trunk of so many rooms, of which every lamp was said to be dark by two people. */
export function line({ rooms, rates = SHORTS_ALONE, outcome = () => 'fails' }: Line) {
  const nodes = Array.from({ length: rooms }, (_, n) => ({
    node: `A${n + 1}`,
    kind: 'station' as const,
    fedFrom: n === 0 ? null : `A${n}`,
    cableMetres: 6 + ((n * 7) % 11),
    cableType: null,
    unitModel: null,
    floor: null,
    room: `Room ${n + 1}`,
  }));
  const request: LocateRequest = {
    trunks: [
      {
        id: 'A',
        nodes: nodes.map(({ node: id, kind, fedFrom, cableMetres }) => {
          return { id, kind, fedFrom, cableMetres };
        }),
      },
    ],
    exposureDays: 180,
    rates,
    observations: nodes.map(({ node }, n) => ({
      trunk: 'A',
      node,
      function: 'lamp',
      outcome: outcome(n + 1),
      informant: { id: n % 2 ? 'Mara' : 'Odo', kind: 'office' },
    })),
  };
  return { drawing: { trunks: [{ trunk: 'A', nodes }] }, request, words: wordsIn('en') };
}

/** Eighty rooms, silent from Room 45 on: what one caller says of six of them, told to a technician. */
export function ordinaryLine() {
  const { request, ...posed } = line({ rooms: 80, rates: DEFAULT_RATES });
  const heard = { 41: 'works', 44: 'works', 45: 'fails', 46: 'fails', 50: 'fails', 80: 'fails' };
  const observations = Object.entries(heard).map(([room, outcome]) => ({
    trunk: 'A',
    node: `A${room}`,
    function: 'announcement',
    outcome,
    informant: { id: 'Mara', kind: 'office' },
  })) as LocateRequest['observations'];
  const unmentioned = { reportRate: 0.3, functions: ['announcement' as const] };
  return { ...posed, request: { ...request, observations, unmentioned } };
}

/** Forty rooms, of which two are said to be lit: nothing that takes the whole trunk off goes with that. */
export const CONTRADICTED: Line = {
  rooms: 40,
  rates: DEFAULT_RATES,
  outcome: (room) => (room === 6 || room === 13 ? 'works' : 'fails'),
};
