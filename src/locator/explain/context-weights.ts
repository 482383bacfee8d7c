/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { exp } from '../../elementary/exp.js';
import { ln } from '../../elementary/ln.js';
import { logAdd } from '../numbers/log-add.js';
import type { Chosen } from './chosen.js';
import { unite } from './opening.js';
import { scaledViews } from './view-products.js';
import type { Cases } from './local-cases.js';
import type { Edge } from './node-state.js';
import type { InformativeNode } from './informative-nodes.js';
import { logSumExp } from '../numbers/log-sum-exp.js';
import { copyOf, zeroTable } from '../numbers/zero-table.js';

const ONE = Float64Array.of(1);

/**
 * Given an explanation, how probable each setting of the confusion flags at each informative node is: weights by inner context, not
 * normalised. Where no flag is open there is nothing to weigh.
 */
export function contextWeights(
  informativeNodes: readonly InformativeNode[],
  chosen: Chosen,
): Float64Array[] {
  if (informativeNodes.every(({ outerOf }) => outerOf.length === 1))
    return informativeNodes.map(() => ONE);
  const own = informativeNodes.map((_, h) => ownLogs(informativeNodes[h]!, h, chosen));
  const below = logsBelow(informativeNodes, own);
  const above = informativeNodes.map(({ outerCount }) => zeroTable(outerCount).fill(-Infinity));
  above[0]!.fill(0);
  return informativeNodes.map((informative, h) => {
    const { closing, outerOf, below: ends, contextBelow } = informative;
    const logs = innerLogs(informative, own[h]!, below);
    for (let context = 0; context < logs.length; context++)
      logs[context]! += closing[context]! + above[h]![outerOf[context]!]!;
    for (let j = 0; j < ends.length; j++) {
      const [to, from] = [above[ends[j]!]!, below[ends[j]!]!];
      for (let context = 0; context < logs.length; context++) {
        const of = contextBelow[j]![context]!;
        if (logs[context]! > -Infinity) to[of] = logAdd(to[of]!, logs[context]! - from[of]!);
      }
    }
    const whole = logSumExp(logs);
    for (let context = 0; context < logs.length; context++)
      logs[context] = exp(logs[context]! - whole);
    return logs;
  });
}

/**
 * log P(what is known, states of an explanation | head-end's mode).
 * @param only the informative nodes of which alone it is wanted, where no flag is open
 */
export function logMassOf(
  informativeNodes: readonly InformativeNode[],
  chosen: Chosen,
  only?: readonly number[],
): number {
  if (only) return only.reduce((sum, h) => sum + ownLogs(informativeNodes[h]!, h, chosen)[0]!, 0);
  const own = informativeNodes.map((_, h) => ownLogs(informativeNodes[h]!, h, chosen));
  return logsBelow(informativeNodes, own)[0]![0]!;
}

/** By informative node, by context over its `outer`: log P(what is known there and below, states there). */
function logsBelow(
  informativeNodes: readonly InformativeNode[],
  own: readonly Float64Array[],
): Float64Array[] {
  const below: Float64Array[] = informativeNodes.map(() => ONE);
  for (let h = informativeNodes.length - 1; h >= 0; h--) {
    const informative = informativeNodes[h]!;
    const sums = zeroTable(informative.outerCount).fill(-Infinity);
    const logs = innerLogs(informative, own[h]!, below);
    for (let context = 0; context < logs.length; context++) {
      const to = informative.outerOf[context]!;
      sums[to] = logAdd(sums[to]!, logs[context]! + informative.closing[context]!);
    }
    below[h] = sums;
  }
  return below;
}

function innerLogs(
  informative: InformativeNode,
  own: Float64Array,
  below: readonly Float64Array[],
): Float64Array {
  const logs = copyOf(own, own.length);
  for (let j = 0; j < informative.below.length; j++) {
    const ofRun = below[informative.below[j]!]!;
    const contexts = informative.contextBelow[j]!;
    for (let context = 0; context < logs.length; context++)
      logs[context]! += ofRun[contexts[context]!]!;
  }
  return logs;
}

/** By an informative node's cases and the edges from its state: explanations have most of them in common. */
const OWN = new WeakMap<Cases, Map<Edge | undefined, Float64Array>>();

/** By inner context: log P(what is known at the informative node, its state, the runs below it). */
function ownLogs(informative: InformativeNode, h: number, { states, edges }: Chosen): Float64Array {
  const { cases } = states[h]!;
  if (edges[h]!.length > 1) return workOwnLogs(informative, cases, edges[h]!);
  const known = OWN.get(cases) ?? new Map<Edge | undefined, Float64Array>();
  OWN.set(cases, known);
  const [edge] = edges[h]!;
  const logs = known.get(edge) ?? workOwnLogs(informative, cases, edges[h]!);
  known.set(edge, logs);
  return logs;
}

function workOwnLogs(
  { outerOf, pairBelow }: InformativeNode,
  { feeds, width, local, logs: scale }: Cases,
  edges: readonly Edge[],
): Float64Array {
  const own = zeroTable(outerOf.length);
  const cases = zeroTable(feeds.length);
  for (let context = 0; context < outerOf.length; context++) {
    for (let k = 0; k < feeds.length; k++) {
      const at = (context * feeds.length + k) * width;
      let weights = scaledViews(local.subarray(at, at + width));
      for (let j = 0; j < edges.length && weights.log > -Infinity; j++) {
        const row = (pairBelow[j]![context]! * feeds.length + k) * width;
        const views = edges[j]!.chances.subarray(row, row + width);
        weights = scaledViews(unite(weights.views, views), weights.log);
      }
      cases[k] = ln(weights.views[0]!) + weights.log;
    }
    own[context] = logSumExp(cases) + scale[context]!;
  }
  return own;
}
