// What the slow oracle goes by (fault model, sections 2 to 4). It shares no code and no table with the locator.

import type { OracleElectrical, OracleReading } from './readings-oracle.js';

export type Rates = Record<string, number>;

export interface OracleRequest {
  trunks: {
    id: string;
    nodes: {
      id: string;
      kind: 'station' | 'junction-box';
      fedFrom?: string | null;
      cableMetres: number;
      exposureDays?: number;
    }[];
  }[];
  exposureDays: number;
  rates?: Partial<Record<'headEnd' | 'port' | 'station' | 'junction' | 'cablePerMetre', Rates>>;
  observations?: {
    trunk: string;
    node: string;
    function: string;
    outcome: string;
    informant?: { id?: string; kind: string };
  }[];
  unmentioned?: { reportRate: number; functions: string[] };
  electrical?: OracleElectrical;
  readings?: OracleReading[];
}

/** Beside a request: λt of each mode of each component, in place of rates and exposures. */
export interface OracleExpectation {
  headEnd: Rates;
  trunks: {
    id: string;
    port: Rates;
    nodes: { id: string; junctionOut: Rates; cable: Rates; junctionIn: Rates; station: Rates }[];
  }[];
}

export const ORACLE_RATES = {
  headEnd: {
    power: 0.08,
    amplifier: 0.04,
    receiver: 0.02,
    selector: 0.02,
    'bell-source': 0.06,
    microphone: 0.05,
    'line-input': 0.02,
  },
  port: { 'no-output': 0.02 },
  station: {
    dead: 0.012,
    speaker: 0.006,
    'volume-down': 0.03,
    microphone: 0.008,
    address: 0.002,
    lamp: 0.004,
    'bell-setting': 0.003,
    'announcement-setting': 0.003,
    'music-setting': 0.003,
    'short-supply': 0.001,
  },
  junction: {
    parted: 0.002,
    'open-supply': 0.0015,
    'open-return': 0.0015,
    'open-speech': 0.0015,
    'open-select': 0.0015,
    'short-supply': 0.0002,
    'short-speech': 0.0002,
    'short-select': 0.0002,
    resistive: 0.002,
  },
  cablePerMetre: {
    parted: 4e-5,
    'open-supply': 1e-5,
    'open-return': 1e-5,
    'open-speech': 1e-5,
    'open-select': 1e-5,
    'short-supply': 5e-6,
    'short-speech': 5e-6,
    'short-select': 5e-6,
    resistive: 5e-6,
  },
};

const SOUND = ['announcement', 'bell', 'music', 'room-call'];
export const HEAD_END_STOPS: Record<string, string[]> = {
  ok: [],
  power: ['lamp', 'announcement', 'bell', 'music', 'room-call', 'talkback'],
  amplifier: SOUND,
  receiver: ['talkback'],
  selector: ['room-call', 'talkback'],
  'bell-source': ['bell'],
  microphone: ['announcement', 'room-call'],
  'line-input': ['music'],
};
export const STATION_STOPS: Record<string, string[]> = {
  ok: [],
  dead: ['lamp', 'announcement', 'bell', 'music', 'room-call', 'talkback'],
  speaker: SOUND,
  'volume-down': SOUND,
  microphone: ['talkback'],
  address: ['room-call', 'talkback'],
  lamp: ['lamp'],
  'bell-setting': ['bell'],
  'announcement-setting': ['announcement'],
  'music-setting': ['music'],
  'short-supply': [],
};
const NEEDS: Record<string, string[]> = {
  lamp: ['supply', 'return'],
  announcement: ['supply', 'return', 'speech'],
  bell: ['supply', 'return', 'speech'],
  music: ['supply', 'return', 'speech'],
  'room-call': ['supply', 'return', 'speech', 'select'],
  talkback: ['supply', 'return', 'speech', 'select'],
};
export const ORACLE_FUNCTIONS = Object.keys(NEEDS);
export const ERRORS: Record<string, Record<string, number[]>> = {
  office: { good: [0.94, 0.03, 0.03], weak: [0.35, 0.45, 0.2], dead: [0.015, 0.005, 0.98] },
  technician: {
    good: [0.985, 0.01, 0.005],
    weak: [0.1, 0.85, 0.05],
    dead: [0.003, 0.002, 0.995],
  },
};
export const OUTCOMES = ['works', 'weak', 'fails'];

const CORES = ['supply', 'return', 'speech', 'select'];
export const ALL = 15;
export const bit = (core: string) => 1 << CORES.indexOf(core);
export function priors(rates: Rates, scale: number, years: number): Rates {
  const total = Object.values(rates).reduce((sum, rate) => sum + rate * scale, 0);
  const chances: Rates = { ok: Math.exp(-total * years) };
  for (const [mode, rate] of Object.entries(rates))
    chances[mode] = total > 0 ? (1 - Math.exp(-total * years)) * ((rate * scale) / total) : 0;
  return chances;
}

/** Section 3: what a component in a mode makes of the view below it. */
export function upThrough(mode: string, view: number): number {
  if (mode === 'parted' || mode === 'open-return') return 0;
  if (mode.startsWith('open-')) return view & ~bit(mode.slice(5));
  if (mode.startsWith('short-')) return view | bit(mode.slice(6));
  return view;
}

/** Section 3: what it makes of the feed above it; a feed is a set of cores, plus 16 where the supply is weak. */
export function downThrough(mode: string, feed: number): number {
  if (mode === 'parted') return feed & 16;
  if (mode.startsWith('open-')) return feed & ~bit(mode.slice(5));
  return mode === 'resistive' ? feed | 16 : feed;
}

export type ConditionName = 'good' | 'weak' | 'dead';

export function conditionOf(
  name: string,
  headEnd: string,
  station: string,
  feed: number,
): ConditionName {
  const missing = NEEDS[name]!.some((core) => !(feed & bit(core)));
  if (missing || HEAD_END_STOPS[headEnd]!.includes(name) || STATION_STOPS[station]!.includes(name))
    return 'dead';
  return feed & 16 ? 'weak' : 'good';
}
