/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { SUPPLY } from '../../plan/cores.js';
import type { InformativeNode } from './informative-nodes.js';
import type { Chosen } from './chosen.js';
import {
  casesOf,
  type Cases,
  type FedNode,
  stationMasses,
  type LabelledSite,
} from './local-cases.js';
import { unite } from './opening.js';
import { VIEW_COUNT } from './run-effects.js';
import { scaledViews, ViewProducts } from './view-products.js';

/** One informative node in an explanation, and the views at the top of each run below it. */
export interface Setting {
  readonly informative: InformativeNode;
  readonly cases: Cases;
  /** Weights by inner context. */
  readonly weights: Float64Array;
  /** By run below, those to informative nodes and then those to plain ends: P(run), as Edge.chances. */
  readonly runs: readonly Float64Array[];
  /** The pair of labels of each run, by inner context. */
  readonly pairs: readonly Int32Array[];
  /** Of all runs, by context * cases + case. */
  readonly products: readonly ViewProducts[];
}

/** What is seen in all runs, and in all but one. */
function productsOf(
  cases: Cases,
  contexts: number,
  runs: readonly Float64Array[],
  pairs: readonly Int32Array[],
): ViewProducts[] {
  const count = cases.feeds.length;
  return Array.from({ length: contexts * count }, (_, i) => {
    const branches = runs.map((chances, j) => {
      const row = (pairs[j]![Math.floor(i / count)]! * count + (i % count)) * VIEW_COUNT;
      return scaledViews(chances.subarray(row, row + VIEW_COUNT));
    });
    return new ViewProducts(branches, VIEW_COUNT);
  });
}

/** log of the scale of one context's weights: that of its likeliest case. */
export function scaleOf({ cases, products }: Setting, context: number): number {
  const count = cases.feeds.length;
  return Math.max(
    ...products.slice(context * count, (context + 1) * count).map((product) => product.all().log),
  );
}

/** By context, case and view of one run: what everything else at the informative node gives to it, over the context's scale. */
function weighRun(
  { cases, products }: Setting,
  context: number,
  k: number,
  left: number,
  logScale: number,
): Float64Array {
  const at = context * cases.feeds.length + k;
  const { views, log } = left < 0 ? products[at]!.all() : products[at]!.without(left);
  const local = cases.local.subarray(at * VIEW_COUNT, (at + 1) * VIEW_COUNT);
  const factor = Math.exp(log - logScale);
  return unite(local, views).map((weight) => weight * factor);
}

/** Each setting's weight is shared out by what `cases` and runs give to it. */
export function contextShares(setting: Setting): Float64Array {
  return setting.weights.map((weight, context) => {
    let whole = 0;
    const scale = scaleOf(setting, context);
    for (let k = 0; k < setting.cases.feeds.length; k++)
      whole += weighRun(setting, context, k, -1, scale)[0]!;
    return whole > 0 ? weight / whole : 0;
  });
}

/** P(at least one faulty) of an informative node's station. */
export function stationFault(fed: FedNode, setting: Setting): number {
  const { view } = fed;
  const { informative, weights, products } = setting;
  const shares = weights.length > 1 ? contextShares(setting) : weights;
  let sound = 0;
  let faulty = 0;
  shares.forEach((share, context) => {
    if (share === 0) return;
    const { keep, short } = informative.terms[context >> informative.inner.length]!;
    // Weights by the view below: of a station that leaves it as it is, and of one that shorts the supply.
    const below = products[context]!.all().views;
    const asItIs = keep * below[view]!;
    const shorting = view & SUPPLY ? short * (below[view]! + below[view & ~SUPPLY]!) : 0;
    const { classes, shorted } = stationMasses(fed, context);
    classes.forEach((mass, k) => {
      if (k === 0) sound += share * asItIs * mass;
      else faulty += share * asItIs * mass;
    });
    faulty += share * shorting * shorted;
  });
  return faulty / (sound + faulty);
}

/** The views of a run to a plain end, which are the same whatever is fed into it, in the layout of Edge.chances. */
function forEachCase(views: Float64Array, cases: number): Float64Array {
  const all = new Float64Array(views.length * cases);
  for (let at = 0; at < views.length; at += VIEW_COUNT)
    for (let k = 0; k < cases; k++)
      all.set(views.subarray(at, at + VIEW_COUNT), at * cases + k * VIEW_COUNT);
  return all;
}

/** What everything but one run makes of the view at its top, by pair of labels * cases + case. */
export function weightsAbove(
  setting: Setting,
  shares: Float64Array,
  scales: readonly number[],
  j: number,
  pairCount: number,
): Float64Array[] {
  const cases = setting.cases.feeds.length;
  // Nearly always: nothing else gives anything to this run.
  if (shares.length === 1 && cases === 1 && setting.runs.length === 1) return [setting.cases.local];
  const above = Array.from({ length: pairCount * cases }, () => new Float64Array(VIEW_COUNT));
  shares.forEach((share, context) => {
    if (share === 0) return;
    const scale = scales[context]!;
    for (let k = 0; k < cases; k++) {
      const sum = above[setting.pairs[j]![context]! * cases + k]!;
      weighRun(setting, context, k, j, scale).forEach((weight, v) => (sum[v]! += share * weight));
    }
  });
  return above;
}

/** An informative node in an explanation, with its runs to plain ends beside the others. */
export function settingOf(
  site: LabelledSite,
  informative: InformativeNode,
  h: number,
  { graph, states, edges }: Chosen,
  { weights, onlyQuiet }: { readonly weights: Float64Array; readonly onlyQuiet: boolean },
): Setting {
  const { state } = states[h]!;
  const cases =
    informative.tails.length > 0
      ? casesOf(site, informative, graph.group, state, { withoutTails: true, onlyQuiet })
      : states[h]!.cases;
  const runs = edges[h]!.map(({ chances }) => chances);
  const pairs = informative.pairBelow.slice();
  informative.tails.forEach((tail, t) => {
    runs.push(forEachCase(tail.views(), cases.feeds.length));
    pairs.push(
      informative.outerOf.map(
        (_, context) => informative.tailPairs[t]![context >> informative.inner.length]!,
      ),
    );
  });
  const products = productsOf(cases, informative.outerOf.length, runs, pairs);
  return { informative, cases, weights, runs, pairs, products };
}
