import type { InformantKind, Outcome } from '../model/error-rates.js';
import type { FunctionName } from '../model/functions.js';
import type { RateTables } from '../model/rates.js';

/** A drawing and evidence, as `POST /api/v1/locate` takes them. */
export interface LocateRequest {
  trunks: RequestTrunk[];
  /** Days since the components were last proven good; a node may carry its own for its span and its station. */
  exposureDays: number;
  /** A group given replaces that group's table; a mode that it leaves out does not occur. */
  rates?: Partial<RateTables>;
  observations?: RequestObservation[];
  unmentioned?: Unmentioned;
  /** How many explanations; left out: DEFAULT_EXPLANATIONS; 0 leaves them out of the answer. */
  explanations?: number;
}

export interface RequestTrunk {
  id: string;
  nodes: RequestNode[];
}

export const NODE_KINDS = ['station', 'junction-box'] as const;

export interface RequestNode {
  id: string;
  kind: (typeof NODE_KINDS)[number];
  /** The node that feeds this one; null for the head-end's port; left out: the node before it in the list. */
  fedFrom?: string | null;
  cableMetres: number;
  exposureDays?: number;
}

export interface RequestObservation {
  trunk: string;
  node: string;
  function: FunctionName;
  outcome: Outcome;
  /** Left out: the office, nobody in particular. Only an informant with an id can be confused. */
  informant?: Informant;
}

export interface Informant {
  /** One id is one person in the whole request. */
  id?: string;
  kind: InformantKind;
}

/** Rooms were volunteered, not gone through: what nobody said about a function tells something too. */
export interface Unmentioned {
  /** Chance that a dead function is reported. */
  reportRate: number;
  functions: FunctionName[];
}
