/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ln } from '../../elementary/ln.js';
import { logAdd } from '../numbers/log-add.js';
import type { Graph, NodeState } from './node-state.js';
import type { InformativeNode } from './informative-nodes.js';
import { localLogs } from './local-cases.js';
import { logSumExp } from '../numbers/log-sum-exp.js';
import type { WorkLeft } from './work.js';
import { zeroTable } from '../numbers/zero-table.js';

/** The most that one explanation can have at and below an informative node in a state; logarithms. */
export interface Bound {
  /** By context over `outer`. */
  readonly best: Float64Array;
  /**
   * Of an informative node with several below, by j: the most from the j-th on, given the view of those before, at
   * (context * cases + case) * width + view, `local` included. Empty for others.
   */
  readonly rest: readonly Float64Array[];
}

/** From the last informative nodes to the site: what follows the best choices below; sums where a choice is summed out. */
export function boundGraph(
  informativeNodes: readonly InformativeNode[],
  { states }: Graph,
  work: WorkLeft,
): Bound[][] {
  const bounds: Bound[][] = informativeNodes.map(() => []);
  for (let h = informativeNodes.length - 1; h >= 0; h--)
    bounds[h] = states[h]!.map((state) => {
      work.spend(
        state.cases.local.length *
          (informativeNodes[h]!.below.length > 1 ? informativeNodes[h]!.below.length : 1),
      );
      for (const edges of state.edges) work.spend(edges.length);
      return boundOf(informativeNodes[h]!, state, bounds);
    });
  return bounds;
}

function boundOf(
  informative: InformativeNode,
  state: NodeState,
  bounds: readonly Bound[][],
): Bound {
  const { outerOf, closing, below, outerCount } = informative;
  const rest = below.length > 1 ? restOf(informative, state, bounds) : [];
  const best = zeroTable(outerCount).fill(-Infinity);
  for (let context = 0; context < outerOf.length; context++) {
    const inner =
      below.length === 1
        ? bestEdge(informative, state, bounds, context)
        : bestFirst(state, rest, context);
    const to = outerOf[context]!;
    best[to] = logAdd(best[to]!, closing[context]! + inner);
  }
  return { best, rest };
}

function bestEdge(
  { below, contextBelow }: InformativeNode,
  { edges }: NodeState,
  bounds: readonly Bound[][],
  context: number,
): number {
  const of = contextBelow[0]![context]!;
  let most = -Infinity;
  const ends = bounds[below[0]!]!;
  for (const { through, to } of edges[0]!) {
    const log = through![context]! + ends[to]!.best[of]!;
    if (log > most) most = log;
  }
  return most;
}

/** Nothing is seen before the first span below: view 0 of every case. */
function bestFirst({ cases }: NodeState, rest: readonly Float64Array[], context: number): number {
  const { feeds, width, local, logs } = cases;
  return logSumExp(
    Float64Array.from(feeds, (_, k) => {
      const at = (context * feeds.length + k) * width;
      return rest[0]?.[at] ?? ln(local[at]!) + logs[context]!;
    }),
  );
}

function restOf(
  informative: InformativeNode,
  { cases, edges }: NodeState,
  bounds: readonly Bound[][],
): Float64Array[] {
  const { below, contextBelow, pairBelow } = informative;
  const { feeds, width, local } = cases;
  let after = localLogs(cases);
  const rest: Float64Array[] = [];
  for (let j = below.length - 1; j >= 0; j--) {
    const table = zeroTable(local.length).fill(-Infinity);
    for (let context = 0; context < contextBelow[j]!.length; context++) {
      const of = contextBelow[j]![context]!;
      for (let k = 0; k < feeds.length; k++) {
        const row = (pairBelow[j]![context]! * feeds.length + k) * width;
        const most = mostByView(edges[j]!, bounds[below[j]!]!, of, row, width);
        const at = (context * feeds.length + k) * width;
        for (let w = 0; w < width; w++)
          for (let v = 0; v < width; v++)
            table[at + w] = logAdd(table[at + w]!, most[v]! + after[at + (w | v)]!);
      }
    }
    rest.unshift(table);
    after = table;
  }
  return rest;
}

/** log of the most that one state below gives to each view at the top of its run. */
function mostByView(
  edges: NodeState['edges'][number],
  below: readonly Bound[],
  context: number,
  at: number,
  width: number,
): Float64Array {
  const most = zeroTable(width).fill(-Infinity);
  for (const { chances, to } of edges) {
    const best = below[to]!.best[context]!;
    for (let v = 0; v < width; v++)
      if (chances[at + v]! > 0) most[v] = Math.max(most[v]!, ln(chances[at + v]!) + best);
  }
  return most;
}
