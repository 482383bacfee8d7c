/** What a node draws: a constant current, or a constant power (a switching supply). */
export type Load = { kind: 'amps'; amps: number } | { kind: 'watts'; watts: number };

/** A node of a drawn trunk: a station with its load, or a junction box (no load). */
export interface TrunkNode {
  /** Index of the node that feeds it; null: the head-end's port. Any order, no cycles. */
  parent: number | null;
  /** Length of the span that feeds it. */
  cableMetres: number;
  /** Of that span's cable, go and return; left out: the trunk's. */
  loopOhmsPerMetre?: number;
  /** In series with that span: a bad joint. Left out: 0. */
  jointOhms?: number;
  load?: Load;
}

/** A trunk as a d.c. ladder: a source with its internal resistance feeding a tree. */
export interface SupplyTrunk {
  sourceVolts: number;
  sourceOhms: number;
  /** Go and return; see `loopOhmsPerMetre` for a conductor and a temperature. */
  loopOhmsPerMetre: number;
  nodes: readonly TrunkNode[];
}

/** Volts and amps with every load drawing; arrays follow `nodes`. */
export interface TrunkSolution {
  /** At the port, behind the source's internal resistance. */
  portVolts: number;
  /** What the whole trunk draws. */
  portAmps: number;
  nodeVolts: number[];
  /** Through the span that feeds the node: its own load and all beyond it. */
  spanAmps: number[];
}
