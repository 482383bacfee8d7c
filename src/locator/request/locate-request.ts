import type { Core, LoopCore } from '../../plan/cores.js';
import type { InformantKind, Outcome } from '../../plan/error-rates.js';
import type { FunctionName } from '../../plan/functions.js';
import type { NodeKind, Place } from '../../drawing/drawn-node.js';
import type { HeadEndMode, PortMode, StationMode } from '../../plan/modes.js';
import type { SEEN, SPAN_PARTS } from '../../plan/look-errors.js';
import type { Plan } from '../../plan/plan.js';
import type { RateTables } from '../../plan/rates.js';

/** A drawing and evidence, as `POST /api/v1/locate` takes them. */
export interface LocateRequest {
  trunks: RequestTrunk[];
  /** Days since the components were last proven good; a node may carry its own for its span and its station. */
  exposureDays: number;
  /** A group given replaces that group's table; a mode that it leaves out does not occur. */
  rates?: Partial<RateTables>;
  observations?: RequestObservation[];
  /** What was seen of parts that somebody looked at. */
  looks?: RequestLook[];
  /** How the evidence began; left out: by a complaint, and nobody complains of nothing, or hardly ever. */
  begunBy?: (typeof BEGUN_BY)[number];
  /** How much rarer complaints are where all is well with what is complained of; left out: DEFAULT_FALSE_ALARM_RATIO. */
  falseAlarmRatio?: number;
  unmentioned?: Unmentioned;
  /** The supply as it was built; needed by readings in volts and ohms. */
  electrical?: Electrical;
  readings?: RequestReading[];
  /** How many explanations; left out: DEFAULT_EXPLANATIONS; 0 leaves them out of the answer. */
  explanations?: number;
  /** How many checks by what they tell about the causes; left out or 0: none, and functions by what they tell of themselves. */
  checks?: number;
  /** The kind of system; left out: the default plan. No part of the wire form: whoever asks the locator gives it. */
  plan?: Plan;
}

export const BEGUN_BY = ['complaint', 'round'] as const;

export interface RequestTrunk {
  id: string;
  nodes: RequestNode[];
}

export interface RequestNode {
  id: string;
  kind: NodeKind;
  /** The node that feeds this one; null for the head-end's port; left out: the node before it in the list. */
  fedFrom?: string | null;
  cableMetres: number;
  exposureDays?: number;
  /** Of stations that settings of the head-end switch together. */
  groups?: string[];
  /** Bridged over or taken out: an inert station. */
  isOut?: boolean;
  /** Functions that the unit was never fitted with. */
  lacks?: FunctionName[];
}

export interface RequestObservation {
  trunk: string;
  node: string;
  function: FunctionName;
  outcome: Outcome;
  /** Left out: the office, nobody in particular. Only an informant with an id can be confused. */
  informant?: Informant;
  /** A node of the trunk: the cable that leaves it was disconnected there meanwhile. */
  disconnectedBelow?: string;
}

export interface Informant {
  /** One id is one person in the whole request. */
  id?: string;
  kind: InformantKind;
}

/** Somebody looked at a part of a place; left out, the informant is a technician. */
export type RequestLook = {
  seen: (typeof SEEN)[number];
  informant?: { kind: InformantKind };
} & (
  | { place: Extract<Place, { kind: 'span' }>; part: SpanPart }
  | { place: Extract<Place, { kind: 'station' }>; part: 'unit' | StationMode }
  | { place: Extract<Place, { kind: 'port' }>; part: PortMode }
  | { place: Extract<Place, { kind: 'head-end' }>; part: HeadEndMode; group?: string }
);

export type SpanPart = (typeof SPAN_PARTS)[number];

/** Rooms were volunteered, not gone through: what nobody said about a function tells something too. */
export interface Unmentioned {
  /** Chance that a dead function is reported. */
  reportRate: number;
  functions: FunctionName[];
}

/** The supply of every trunk of the site: a source with its internal resistance, one make of cable, stations alike. */
export interface Electrical {
  sourceVolts: number;
  sourceOhms: number;
  /** What one station draws. */
  stationAmps: number;
  /** Of one core, at 20 °C. */
  coreOhmsPerKm: number;
  /** Of the cable; left out: 20. */
  celsius?: number;
}

export const READING_KINDS = ['supply-volts', 'loop-ohms', 'continuity'] as const;

/** The cores that a loop with return can be measured of: those that a short to return is modelled for. */
export const LOOP_CORES = ['supply', 'speech', 'select'] as const satisfies readonly LoopCore[];

/** A number that somebody measured; uncertainties are standard ones, of this reading alone. */
export type RequestReading = SupplyVolts | LoopOhms | Continuity;

/** Between supply and return at a node, stations drawing. */
export interface SupplyVolts {
  kind: 'supply-volts';
  trunk: string;
  node: string;
  volts: number;
  uncertaintyVolts: number;
}

/** From the port, out along a core and back along return. */
export interface LoopOhms {
  kind: 'loop-ohms';
  trunk: string;
  core: LoopCore;
  ohms: number;
  uncertaintyOhms: number;
}

/** Whether all the cores named get through from one node to another further down. */
export interface Continuity {
  kind: 'continuity';
  trunk: string;
  /** Nearer to the head-end than `to`, on its path; null or left out: the port. */
  from?: string | null;
  to: string;
  cores: Core[];
  passes: boolean;
}
