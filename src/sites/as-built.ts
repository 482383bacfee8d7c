import type { NodeKind } from '../drawing/drawn-node.js';
import type { FunctionName } from '../plan/functions.js';

/** Of a site. */
export const MOST_NODES = 5000;

/** The unit in the office that every trunk starts from. */
export interface HeadEnd {
  model: string | null;
  serial: string | null;
  place: string | null;
  /** ISO date. */
  installedOn: string | null;
  supplyVolts: number | null;
  /** Internal resistance of the supply. */
  supplyOhms: number | null;
  /** What one station draws. */
  stationAmps: number | null;
  /** Of one core of the trunks' cable, at 20 °C. */
  coreOhmsPerKm: number | null;
}

/** One station or junction box, with the one span that feeds it. */
export interface RecordNode {
  /** Its code, the name that tickets use; unique within its trunk. */
  node: string;
  kind: NodeKind;
  /** Code of the node whose span feeds it; null: the head-end's port. */
  fedFrom: string | null;
  cableType: string | null;
  cableMetres: number;
  /** Whether nobody measured that length: it is a typical one, or somebody's guess. */
  isLengthGuessed: boolean;
  room: string | null;
  block: string | null;
  floor: string | null;
  unitModel: string | null;
  unitSerial: string | null;
  /** ISO date. */
  unitInstalledOn: string | null;
  /** Groups of rooms that the head-end can set apart, by name. */
  groups: string[];
  /** Bridged over or taken out: the cable goes through, nothing is there to speak. */
  isOut: boolean;
  /** What its unit was never fitted for. */
  lacks: FunctionName[];
}

/** One cable from one port of the head-end, with its nodes in order. */
export interface RecordTrunk {
  trunk: string;
  name: string;
  port: string | null;
  nodes: RecordNode[];
}

/** What is installed at a site, as one version of its record says: trunks by code, nodes in order. */
export interface AsBuilt {
  headEnd: HeadEnd;
  trunks: RecordTrunk[];
}

/** Before anything was drawn: version 0 of every site. */
export const NOTHING_DRAWN: AsBuilt = {
  headEnd: {
    model: null,
    serial: null,
    place: null,
    installedOn: null,
    supplyVolts: null,
    supplyOhms: null,
    stationAmps: null,
    coreOhmsPerKm: null,
  },
  trunks: [],
};

const byNumbersInText = new Intl.Collator('en', { numeric: true });

/** Orders trunks as people read them: A2 before A10. */
export function compareTrunks(a: { trunk: string }, b: { trunk: string }): number {
  return byNumbersInText.compare(a.trunk, b.trunk) || (a.trunk < b.trunk ? -1 : 1);
}
