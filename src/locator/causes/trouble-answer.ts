import type { FunctionName } from '../../plan/functions.js';
import type { StationMode } from '../../plan/modes.js';
import type { LikelyPlace } from '../posterior/locate-result.js';
import type { SpanPart } from '../request/locate-request.js';

/**
 * What keeps a function from a station (fault model, section 5), the first that applies on the way from the head-end.
 * `nothing`: it is good there, and the report wrong. `weak-feed`: it is weak, and the bad joint was not looked for.
 * `rest`: all causes that are not listed.
 */
export type Cause =
  | { kind: 'span'; trunk: string; from: string | null; to: string; component: SpanPart }
  | { kind: 'head-end'; mode: string }
  | { kind: 'port'; trunk: string }
  | { kind: 'short'; trunk: string }
  | { kind: 'station'; trunk: string; node: string; mode: StationMode }
  | { kind: 'weak-feed'; trunk: string }
  | { kind: 'nothing' }
  | { kind: 'rest' };

export interface CauseChance {
  cause: Cause;
  /** P(it is the cause | evidence). */
  probability: number;
  /**
   * Of a short: places with the chance that they hold such a short, seen from the port, given that one is the cause; most
   * probable first, at most 20. Several at once may pass 1.
   */
  within?: LikelyPlace[];
}

/** A function at a station that somebody said is weak or fails, with what may be the cause. */
export interface Trouble {
  function: FunctionName;
  trunk: string;
  node: string;
  /** Most probable first, equals by id, at most 20 and then `rest`; they add up to 1. */
  causes: CauseChance[];
}
