import { type CoreSet, RETURN } from './cores.js';
import { DEFAULT_PLAN } from './default-plan.js';

/** Groups of stations that a request names: each has its own modes of the head-end. */
export const MAX_GROUPS = 20;

/** What a component of a span does to what travels on it (section 3). */
export interface SpanEffect {
  /** Cores that do not get through. */
  readonly removes: CoreSet;
  /** Cores shorted to return here. */
  readonly shorts: CoreSet;
  /** A bad joint in the supply pair: the feed below is weak. */
  readonly weakens: boolean;
}

/** The view above a component, given the view below it: an open hides a short beyond it (section 3). */
export function viewAbove(effect: SpanEffect, view: CoreSet): CoreSet {
  const through = effect.removes & RETURN ? 0 : view & ~effect.removes;
  return through | effect.shorts;
}

export type GroupMode = keyof typeof DEFAULT_PLAN.headEndOfGroup;
export type SiteMode = keyof typeof DEFAULT_PLAN.headEnd;
export type HeadEndMode = SiteMode | GroupMode;
/** A head-end mode as answers name it: those of a group carry its name. */
export type HeadEndModeName = SiteMode | GroupSetting;
/** Head-end modes that somebody in the office can look for, without a tool and without opening anything. */
export type HeadEndSetting = SiteSetting | GroupSetting;
/** Of these the ones for the whole site. */
export type SiteSetting = {
  [Mode in SiteMode]: (typeof DEFAULT_PLAN.headEnd)[Mode] extends { shown: number } ? Mode : never;
}[SiteMode];
/** And those that the head-end has for each group of stations. */
export type GroupSetting = `${GroupMode}:${string}`;
export type PortMode = typeof DEFAULT_PLAN.port;
export type StationMode = keyof typeof DEFAULT_PLAN.station;
export type SpanMode = keyof typeof DEFAULT_PLAN.span;

const names = <T extends object>(table: T) => Object.keys(table) as (keyof T)[];

// The modes of the default plan.
export const GROUP_MODES: readonly GroupMode[] = names(DEFAULT_PLAN.headEndOfGroup);
export const HEAD_END_MODES: readonly HeadEndMode[] = [
  ...names(DEFAULT_PLAN.headEnd),
  ...GROUP_MODES,
];
export const PORT_MODES: readonly PortMode[] = [DEFAULT_PLAN.port];
export const STATION_MODES: readonly StationMode[] = names(DEFAULT_PLAN.station);
export const SPAN_MODES: readonly SpanMode[] = names(DEFAULT_PLAN.span);
