// What the slow oracle is asked: a request in the wire form, typed loosely so that no type of the locator is needed.
import type { OracleElectrical, OracleReading } from '../readings-oracle.js';

export type Rates = Record<string, number>;

export interface OracleNode {
  id: string;
  kind: 'station' | 'junction-box';
  fedFrom?: string | null;
  cableMetres: number;
  exposureDays?: number;
  groups?: readonly string[];
  isOut?: boolean;
  lacks?: readonly string[];
}

export interface OracleObservation {
  trunk: string;
  node: string;
  function: string;
  outcome: string;
  informant?: { id?: string; kind: string };
  disconnectedBelow?: string;
}

export interface OracleLook {
  place:
    | { kind: 'head-end' }
    | { kind: 'port'; trunk: string }
    | { kind: 'span'; trunk: string; from?: string | null; to: string }
    | { kind: 'station'; trunk: string; node: string };
  part: string;
  group?: string;
  seen: string;
  informant?: { kind: string };
}

export interface OracleRequest {
  trunks: { id: string; nodes: OracleNode[] }[];
  exposureDays: number;
  rates?: Partial<Record<'headEnd' | 'port' | 'station' | 'junction' | 'cablePerMetre', Rates>>;
  observations?: OracleObservation[];
  unmentioned?: { reportRate: number; functions: string[] };
  looks?: OracleLook[];
  begunBy?: 'complaint' | 'round';
  falseAlarmRatio?: number;
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
