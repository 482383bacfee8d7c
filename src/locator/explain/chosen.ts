/* eslint-disable @typescript-eslint/no-non-null-assertion -- loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { Edge, Graph, NodeState } from './node-state.js';
import type { InformativeNode } from './informative-nodes.js';
import type { Partial } from './partial.js';
import type { Stage } from './stages.js';

/** A whole explanation: the state of every informative node, and by informative node below it the run into that. */
export interface Chosen {
  readonly graph: Graph;
  readonly states: readonly NodeState[];
  readonly edges: readonly (readonly Edge[])[];
}

/** Follows an explanation back from the last state chosen. */
export function chosenStates(
  informativeNodes: readonly InformativeNode[],
  stages: readonly Stage[],
  whole: Partial,
): Chosen {
  const { graph } = whole.field;
  const positions = new Int32Array(informativeNodes.length);
  for (let step: Partial | null = whole; step?.previous; step = step.previous) {
    const before: Partial = step.previous;
    const informative = stages[before.stage]?.below[before.done];
    if (informative !== undefined) positions[informative] = step.chosen;
  }
  const states: NodeState[] = [];
  const edges: Edge[][] = [];
  informativeNodes.forEach(({ below }, h) => {
    const state = graph.states[h]![positions[h]!]!;
    states.push(state);
    edges.push(below.map((to, j) => state.edges[j]!.find((edge) => edge.to === positions[to])!));
  });
  return { graph, states, edges };
}
