// The tables of the fault model's sections 1, 2 and 4, typed off the document.
import type { Rates } from './request.js';

export const ORACLE_RATES = {
  headEnd: {
    power: 0.08,
    amplifier: 0.04,
    receiver: 0.02,
    selector: 0.02,
    'bell-source': 0.06,
    microphone: 0.05,
    'line-input': 0.02,
    'group-off': 0.02,
    'group-bell-off': 0.01,
    'group-announcement-off': 0.01,
  } as Rates,
  port: { 'no-output': 0.02 } as Rates,
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
  } as Rates,
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
  } as Rates,
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
  } as Rates,
};

export const CORES = ['supply', 'return', 'speech', 'select'];
export const ALL = 15;
/** In a feed, beside its cores: the supply is weak. */
export const WEAK = 16;
const BITS: Record<string, number> = Object.fromEntries(CORES.map((core, i) => [core, 1 << i]));
export const bit = (core: string) => BITS[core]!;

export const NEEDS: Record<string, string[]> = {
  lamp: ['supply', 'return'],
  announcement: ['supply', 'return', 'speech'],
  bell: ['supply', 'return', 'speech'],
  music: ['supply', 'return', 'speech'],
  'room-call': ['supply', 'return', 'speech', 'select'],
  talkback: ['supply', 'return', 'speech', 'select'],
};
export const ORACLE_FUNCTIONS = Object.keys(NEEDS);
const NEEDED_BITS: Rates = Object.fromEntries(
  Object.entries(NEEDS).map(([name, cores]) => [
    name,
    cores.reduce((all, core) => all | bit(core), 0),
  ]),
);
/** The cores that a function needs, as bits. */
export const neededBy = (name: string) => NEEDED_BITS[name]!;

const SOUND = ['announcement', 'bell', 'music', 'room-call'];
const HEAD_END_STOPS: Record<string, string[]> = {
  ok: [],
  power: ORACLE_FUNCTIONS,
  amplifier: SOUND,
  receiver: ['talkback'],
  selector: ['room-call', 'talkback'],
  'bell-source': ['bell'],
  microphone: ['announcement', 'room-call'],
  'line-input': ['music'],
};
export const GROUP_STOPS: Record<string, string[]> = {
  'group-off': SOUND,
  'group-bell-off': ['bell'],
  'group-announcement-off': ['announcement'],
};
const STATION_STOPS: Record<string, string[]> = {
  ok: [],
  dead: ORACLE_FUNCTIONS,
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

/** Whether a mode of the head-end disables a function at a station of these groups. */
export function headEndStops(mode: string, name: string, groups: readonly string[] = []): boolean {
  const colon = mode.indexOf(':');
  if (colon < 0) return HEAD_END_STOPS[mode]!.includes(name);
  return (
    groups.includes(mode.slice(colon + 1)) && GROUP_STOPS[mode.slice(0, colon)]!.includes(name)
  );
}

export const stationStops = (mode: string, name: string) => STATION_STOPS[mode]!.includes(name);

export type ConditionName = 'good' | 'weak' | 'dead';

export function conditionOf(
  name: string,
  headEnd: string,
  station: string,
  feed: number,
  groups: readonly string[] = [],
): ConditionName {
  const isMissing = (neededBy(name) & ~feed) !== 0;
  if (isMissing || headEndStops(headEnd, name, groups) || stationStops(station, name))
    return 'dead';
  return feed & WEAK ? 'weak' : 'good';
}

export const ERRORS: Record<string, Record<string, number[]>> = {
  office: { good: [0.94, 0.03, 0.03], weak: [0.35, 0.45, 0.2], dead: [0.015, 0.005, 0.98] },
  technician: {
    good: [0.985, 0.01, 0.005],
    weak: [0.1, 0.85, 0.05],
    dead: [0.003, 0.002, 0.995],
  },
};
export const OUTCOMES = ['works', 'weak', 'fails'];
