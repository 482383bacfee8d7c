import type { Bound } from './bounds.js';
import type { Graph } from './node-state.js';

/** One head-end group's part of the search. */
export interface Field {
  readonly graph: Graph;
  readonly bounds: readonly (readonly Bound[])[];
  /** Modes of the head-end in this group with log(share of the group / largest share), largest first. */
  readonly modes: readonly { readonly mode: number; readonly log: number }[];
}

/** Positions of the states of the informative nodes that wait, the next first. */
export interface Waiting {
  readonly position: number;
  readonly next: Waiting | null;
  /** The most that this informative node and those behind it can add, where no flag or label is open. */
  readonly log: number;
}

/** An explanation as far as it is chosen. */
export interface Partial {
  readonly field: Field;
  /** Which step, and how many informative nodes below that step's informative node have their states. */
  readonly stage: number;
  readonly done: number;
  /** Position of the state of the step's informative node. */
  readonly position: number;
  /**
   * log P(what is chosen, and what is known there): by context of the step before; within a step by
   * (context * cases + case) * width + view of the spans so far.
   */
  readonly logs: Float64Array;
  readonly waiting: Waiting | null;
  readonly previous: Partial | null;
  /** Position of the state last chosen. */
  readonly chosen: number;
}
