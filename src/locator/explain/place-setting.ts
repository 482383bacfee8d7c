/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { exp } from '../../elementary/exp.js';
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
import { zeroTable } from '../numbers/zero-table.js';

/** One informative node in an explanation, and the views at the top of each run below it. */
export interface Setting {
  readonly informative: InformativeNode;
  readonly cases: Cases;
  /** By inner context: its weight over what `cases` and runs give to it, and log of the scale of that: that of its likeliest case. */
  readonly shares: Float64Array;
  readonly scales: Float64Array;
  /** By run below, those to informative nodes and then those to plain ends: P(run), as Edge.chances. */
  readonly runs: readonly Float64Array[];
  /** The pair of labels of each run, by inner context. */
  readonly pairs: readonly Int32Array[];
  /** Of all runs, by context * cases + case; null where the context has no weight. */
  readonly products: readonly (ViewProducts | null)[];
}

type Given = Omit<Setting, 'shares' | 'scales'>;

/** What is seen in all runs, and in all but one. */
function productsOf(
  cases: Cases,
  weights: Float64Array,
  runs: readonly Float64Array[],
  pairs: readonly Int32Array[],
): (ViewProducts | null)[] {
  const count = cases.feeds.length;
  return Array.from({ length: weights.length * count }, (_, i) => {
    const context = Math.floor(i / count);
    if (weights[context] === 0) return null;
    const branches = runs.map((chances, j) => {
      const row = (pairs[j]![context]! * count + (i % count)) * VIEW_COUNT;
      return scaledViews(chances.subarray(row, row + VIEW_COUNT));
    });
    return new ViewProducts(branches, VIEW_COUNT);
  });
}

function scaleOf({ cases, products }: Given, context: number): number {
  const count = cases.feeds.length;
  let scale = -Infinity;
  for (let k = 0; k < count; k++)
    scale = Math.max(scale, products[context * count + k]?.all().log ?? -Infinity);
  return scale;
}

/** By context, case and view of one run: what everything else at the informative node gives to it, over the context's scale. */
function weighRun(
  { cases, products }: Given,
  context: number,
  k: number,
  left: number,
  logScale: number,
): Float64Array {
  const at = context * cases.feeds.length + k;
  const product = products[at]!;
  const { views, log } = left < 0 ? product.all() : product.without(left);
  const local = cases.local.subarray(at * VIEW_COUNT, (at + 1) * VIEW_COUNT);
  const factor = exp(log - logScale);
  return unite(local, views).map((weight) => weight * factor);
}

function sharesOf(given: Given, weights: Float64Array, scales: Float64Array): Float64Array {
  if (weights.length === 1) return weights;
  return weights.map((weight, context) => {
    if (weight === 0) return 0;
    let whole = 0;
    for (let k = 0; k < given.cases.feeds.length; k++)
      whole += weighRun(given, context, k, -1, scales[context]!)[0]!;
    return whole > 0 ? weight / whole : 0;
  });
}

/** P(at least one faulty) of an informative node's station. */
export function stationFault(fed: FedNode, setting: Setting): number {
  const { view } = fed;
  const { informative, shares, products } = setting;
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
  const all = zeroTable(views.length * cases);
  for (let at = 0; at < views.length; at += VIEW_COUNT)
    for (let k = 0; k < cases; k++)
      all.set(views.subarray(at, at + VIEW_COUNT), at * cases + k * VIEW_COUNT);
  return all;
}

/** What everything but one run makes of the view at its top, at (pair of labels * cases + case) * VIEW_COUNT + view. */
export function weightsAbove(setting: Setting, j: number, pairCount: number): Float64Array {
  const { shares, scales } = setting;
  const cases = setting.cases.feeds.length;
  // Nearly always: nothing else gives anything to this run.
  if (shares.length === 1 && cases === 1 && setting.runs.length === 1) return setting.cases.local;
  const above = zeroTable(pairCount * cases * VIEW_COUNT);
  shares.forEach((share, context) => {
    if (share === 0) return;
    for (let k = 0; k < cases; k++) {
      const row = (setting.pairs[j]![context]! * cases + k) * VIEW_COUNT;
      weighRun(setting, context, k, j, scales[context]!).forEach(
        (weight, v) => (above[row + v]! += share * weight),
      );
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
  const products = productsOf(cases, weights, runs, pairs);
  const given = { informative, cases, runs, pairs, products };
  const scales = weights.map((_, context) => scaleOf(given, context));
  const shares = sharesOf(given, weights, scales);
  return { informative, cases, runs, pairs, products, scales, shares };
}
