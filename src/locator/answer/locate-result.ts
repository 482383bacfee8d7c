import type { ResistiveJoints } from '../joints/joint-answer.js';
import type { FunctionName } from '../model/functions.js';

/** Where a fault can be mended: a span (its two junctions and its cable), a station, a port, the head-end. */
export type Place =
  | { kind: 'span'; trunk: string; from: string | null; to: string }
  | { kind: 'station'; trunk: string; node: string }
  | { kind: 'port'; trunk: string }
  | { kind: 'head-end' };

export type ComponentName =
  'junction-out' | 'cable' | 'junction-in' | 'station' | 'port' | 'head-end';

/** P(mode | evidence) of one component, `ok` first and then each mode of its rate table. */
export interface ComponentChances {
  component: ComponentName;
  modes: Record<string, number>;
}

/** P(at least one faulty component | evidence) of one place. */
export interface PlaceChance {
  place: Place;
  probability: number;
  components: ComponentChances[];
}

/** P(condition is not dead | evidence). */
export interface Prediction {
  trunk: string;
  node: string;
  function: FunctionName;
  works: number;
}

/** What a technician's look at one function at one station would tell, in bits. */
export interface Check {
  trunk: string;
  node: string;
  function: FunctionName;
  informationBits: number;
}

export interface LocateResult {
  /** Natural logarithm of P(evidence). */
  logEvidence: number;
  /** Every place of the site, most probable first; equals by id. */
  places: PlaceChance[];
  /** Every function at every station, by trunk, a node after the one that feeds it. */
  predictions: Prediction[];
  /** Every function at every station, most telling first; equals by id. */
  checks: Check[];
  /** By trunk: bad joints in the supply pair, where volts were read and one is in play; else left out. */
  resistiveJoints?: ResistiveJoints[];
}
