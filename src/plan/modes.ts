import { ALL_CORES, type CoreSet, RETURN, SELECT, SPEECH, SUPPLY } from './cores.js';
import { ALL_FUNCTIONS, functionSet, type FunctionSet } from './functions.js';

// What every fault mode does (fault model, section 2, column "effect"). The keys are the modes' names in rate tables.

const SOUND = functionSet(['announcement', 'bell', 'music', 'room-call']);

/** Head-end fault modes and the functions that each disables: on every trunk, or in one group of stations. */
export const HEAD_END_DISABLES = {
  power: ALL_FUNCTIONS,
  amplifier: SOUND,
  receiver: functionSet(['talkback']),
  selector: functionSet(['room-call', 'talkback']),
  'bell-source': functionSet(['bell']),
  microphone: functionSet(['announcement', 'room-call']),
  'line-input': functionSet(['music']),
  'group-off': SOUND,
  'group-bell-off': functionSet(['bell']),
  'group-announcement-off': functionSet(['announcement']),
} as const satisfies Record<string, FunctionSet>;

/** Groups of stations that a request names: each is three more modes of the head-end. */
export const MAX_GROUPS = 20;

/** Head-end modes of which there is one for each group of stations: they disable there alone. */
export const GROUP_MODES = ['group-off', 'group-bell-off', 'group-announcement-off'] as const;

/** The cores that a head-end mode takes from every trunk. */
export const HEAD_END_REMOVES: Partial<Record<string, CoreSet>> = { power: SUPPLY };

/** The one fault mode of a port takes the supply core from its trunk. */
export const PORT_REMOVES = { 'no-output': SUPPLY } as const satisfies Record<string, CoreSet>;

/** Station fault modes and the functions that each disables there; with a setting, a room is left out of a programme. `short-supply` disables none by itself. */
export const STATION_DISABLES = {
  dead: ALL_FUNCTIONS,
  speaker: SOUND,
  'volume-down': SOUND,
  microphone: functionSet(['talkback']),
  address: functionSet(['room-call', 'talkback']),
  lamp: functionSet(['lamp']),
  'bell-setting': functionSet(['bell']),
  'announcement-setting': functionSet(['announcement']),
  'music-setting': functionSet(['music']),
  'short-supply': 0,
} as const satisfies Record<string, FunctionSet>;

/** What a component of a span does to what travels on it (section 3). */
export interface SpanEffect {
  /** Cores that do not get through. */
  readonly removes: CoreSet;
  /** Cores shorted to return here. */
  readonly shorts: CoreSet;
  /** A bad joint in the supply pair: the feed below is weak. */
  readonly weakens: boolean;
}

const opens = (removes: CoreSet): SpanEffect => ({ removes, shorts: 0, weakens: false });
const shorts = (core: CoreSet): SpanEffect => ({ removes: 0, shorts: core, weakens: false });

/** Fault modes of a junction and of a cable, which share names and effects. */
export const SPAN_EFFECTS = {
  parted: opens(ALL_CORES),
  'open-supply': opens(SUPPLY),
  'open-return': opens(RETURN),
  'open-speech': opens(SPEECH),
  'open-select': opens(SELECT),
  'short-supply': shorts(SUPPLY),
  'short-speech': shorts(SPEECH),
  'short-select': shorts(SELECT),
  resistive: { removes: 0, shorts: 0, weakens: true },
} as const satisfies Record<string, SpanEffect>;

/** The view above a component, given the view below it: an open hides a short beyond it (section 3). */
export function viewAbove(effect: SpanEffect, view: CoreSet): CoreSet {
  const through = effect.removes & RETURN ? 0 : view & ~effect.removes;
  return through | effect.shorts;
}

export type HeadEndMode = keyof typeof HEAD_END_DISABLES;
export type GroupMode = (typeof GROUP_MODES)[number];
/** A head-end mode as answers name it: those of a group carry its name. */
export type HeadEndModeName = Exclude<HeadEndMode, GroupMode> | `${GroupMode}:${string}`;
export type PortMode = keyof typeof PORT_REMOVES;
export type StationMode = keyof typeof STATION_DISABLES;
export type SpanMode = keyof typeof SPAN_EFFECTS;

const names = <T extends object>(table: T) => Object.keys(table) as (keyof T)[];

export const HEAD_END_MODES: readonly HeadEndMode[] = names(HEAD_END_DISABLES);
/** Head-end modes that are not of a group. */
export const SITE_MODES = HEAD_END_MODES.filter(
  (mode): mode is Exclude<HeadEndMode, GroupMode> => !GROUP_MODES.some((own) => own === mode),
);
export const PORT_MODES: readonly PortMode[] = names(PORT_REMOVES);
export const STATION_MODES: readonly StationMode[] = names(STATION_DISABLES);
export const SPAN_MODES: readonly SpanMode[] = names(SPAN_EFFECTS);

/** What a head-end mode disables and, of a group's mode, the group that it disables it in. */
export function headEndEffect(name: HeadEndModeName): {
  disables: FunctionSet;
  group: string | null;
} {
  const kind = GROUP_MODES.find((mode) => name.startsWith(`${mode}:`));
  if (kind) return { disables: HEAD_END_DISABLES[kind], group: name.slice(kind.length + 1) };
  return { disables: HEAD_END_DISABLES[name as Exclude<HeadEndMode, GroupMode>], group: null };
}
