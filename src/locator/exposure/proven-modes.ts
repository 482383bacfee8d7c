import { type CoreSet, SUPPLY } from '../../plan/cores.js';
import { CORES_NEEDED, type FunctionName, FUNCTIONS } from '../../plan/functions.js';
import {
  HEAD_END_DISABLES,
  type HeadEndMode,
  PORT_MODES,
  PORT_REMOVES,
  type PortMode,
  SITE_MODES,
  SPAN_EFFECTS,
  SPAN_MODES,
  type SpanMode,
  STATION_DISABLES,
  STATION_MODES,
  type StationMode,
} from '../../plan/modes.js';

/** The modes that cannot have been there when a function was seen to work at a station. */
export interface ProvenModes {
  headEnd: readonly HeadEndMode[];
  port: readonly PortMode[];
  /** Of each component of each span on the path there. */
  span: readonly SpanMode[];
  /** Of the station itself. */
  station: readonly StationMode[];
  /** Of each station on the path there, itself among them: a short of a core that was used would have been seen. */
  stationOnPath: readonly StationMode[];
}

/**
 * A function that works proves the cores that it used (fault model, section 7): none was open or shorted to return on
 * the path, and the feed was not weak, which is an outcome of its own. An announcement thus proves speech, not select.
 */
function provenModes(func: number): ProvenModes {
  const cores: CoreSet = CORES_NEEDED[func] ?? 0;
  const bit = 1 << func;
  return {
    headEnd: SITE_MODES.filter((mode) => HEAD_END_DISABLES[mode] & bit),
    port: PORT_MODES.filter((mode) => PORT_REMOVES[mode] & cores),
    span: SPAN_MODES.filter((mode) => {
      const { removes, shorts, weakens } = SPAN_EFFECTS[mode];
      return weakens || (removes | shorts) & cores;
    }),
    station: STATION_MODES.filter((mode) => STATION_DISABLES[mode] & bit),
    stationOnPath: STATION_MODES.filter((mode) => mode === 'short-supply' && cores & SUPPLY),
  };
}

export const PROVEN_MODES: Readonly<Record<FunctionName, ProvenModes>> = Object.fromEntries(
  FUNCTIONS.map((name, func) => [name, provenModes(func)]),
) as Record<FunctionName, ProvenModes>;
