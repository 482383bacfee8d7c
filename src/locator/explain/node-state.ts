import type { Cases } from './local-cases.js';

/** A state of the informative node below that can go with a state of the informative node above. */
export interface Edge {
  /** Its position among the states of the informative node below. */
  readonly to: number;
  /** P(the run between them), at (pair of labels * cases + case) * width + view at the top of the run. */
  readonly chances: Float64Array;
  /** Of an informative node with one informative node below: with `local` of the informative node above, logarithms by its inner context. */
  readonly through: Float64Array | null;
}

export interface NodeState {
  readonly state: number;
  readonly cases: Cases;
  /** By context over `outer`: log of the most that everything above gives to this state, other branches summed out. */
  readonly outside: Float64Array;
  /** By informative node below. */
  readonly edges: Edge[][];
}

/** States that are worth looking at, by informative node, for one head-end group. */
export interface Graph {
  readonly group: number;
  readonly states: NodeState[][];
  /** Whether anything that is possible was left out. */
  cut: boolean;
}

/** A state below that an edge may lead to. */
export interface Candidate {
  readonly state: number;
  readonly chances: Float64Array;
  readonly outside: Float64Array;
}
