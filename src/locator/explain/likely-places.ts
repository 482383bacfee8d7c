/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { LikelyPlace } from '../posterior/locate-result.js';
import { comparePlaces, sortLargestFirst } from '../posterior/order.js';
import { SUPPLY } from '../../plan/cores.js';
import { FEED_CLASSES } from '../sweep/feed-classes.js';
import type { SiteModel } from '../sweep/site.js';
import { STATION_CLASS_COUNT } from '../sweep/station-classes.js';
import type { Chosen } from './chosen.js';
import { contextWeights } from './context-weights.js';
import { unite } from './opening.js';
import type { InformativeNode } from './informative-nodes.js';
import { casesOf, type Cases, CLASS_OF_FEED, feedOf, viewOf } from './local-cases.js';
import { isRaised } from './raised.js';
import { runPlaces } from './run-places.js';
import { scaledViews, ViewProducts } from './view-products.js';
import { VIEW_COUNT } from './run-effects.js';

/** No more places are named with one explanation. */
export const MOST_LIKELY_PLACES = 12;

/** One informative node in an explanation, and the views at the top of each run below it. */
interface Setting {
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
function scaleOf({ cases, products }: Setting, context: number): number {
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
function contextShares(setting: Setting): Float64Array {
  return setting.weights.map((weight, context) => {
    let whole = 0;
    const scale = scaleOf(setting, context);
    for (let k = 0; k < setting.cases.feeds.length; k++)
      whole += weighRun(setting, context, k, -1, scale)[0]!;
    return whole > 0 ? weight / whole : 0;
  });
}

/** P(at least one faulty) of an informative node's station. */
function stationFault(site: SiteModel, group: number, setting: Setting, state: number): number {
  const { informative, weights, products } = setting;
  const model = site.trunks[informative.trunk]!;
  const station = model.station[informative.node]!;
  const likelihood = model.likelihood[informative.node]?.table;
  const of = CLASS_OF_FEED[feedOf(state)]!;
  const shares = weights.length > 1 ? contextShares(setting) : weights;
  const view = viewOf(state);
  let sound = 0;
  let faulty = 0;
  shares.forEach((share, context) => {
    if (share === 0) return;
    const { keep, short } = informative.terms[context >> informative.inner.length]!;
    const flags = context & ((1 << informative.inner.length) - 1);
    // Weights by the view below: of a station that leaves it as it is, and of one that shorts the supply.
    const below = products[context]!.all().views;
    const asItIs = keep * below[view]!;
    const shorting = view & SUPPLY ? short * (below[view]! + below[view & ~SUPPLY]!) : 0;
    const from = (flags * site.headEnd.count + group) * STATION_CLASS_COUNT * FEED_CLASSES + of;
    const told = (k: number) => (likelihood ? likelihood[from + k * FEED_CLASSES]! : 1);
    for (let k = 0; k < STATION_CLASS_COUNT; k++) {
      const mass = share * asItIs * station.classes[k]! * told(k);
      if (k === 0) sound += mass;
      else faulty += mass;
    }
    faulty += share * shorting * station.short * told(0);
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
function weightsAbove(
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

/** Places given explanations of one site: what explanations have in common is worked out once. */
export class LikelyPlaces {
  /** By state of an informative node and, as a text, the states below it. */
  private readonly known = new Map<object, Map<string, LikelyPlace[]>>();
  constructor(
    private readonly site: SiteModel,
    private readonly informativeNodes: readonly InformativeNode[],
  ) {}

  of(chosen: Chosen, headEnd: number): LikelyPlace[] {
    const weights = contextWeights(this.informativeNodes, chosen);
    const places = this.informativeNodes.flatMap((_, h) =>
      this.ofInformative(h, chosen, weights[h]!),
    );
    if (headEnd > 0) places.push({ place: { kind: 'head-end' }, probability: 1 });
    return sortLargestFirst(
      places,
      ({ probability }) => probability,
      (a, b) => comparePlaces(a.place, b.place),
    ).slice(0, MOST_LIKELY_PLACES);
  }

  private ofInformative(h: number, chosen: Chosen, weights: Float64Array): LikelyPlace[] {
    if (this.informativeNodes[h]!.kind === 'site') return [];
    if (weights.length > 1) return this.work(h, chosen, weights);
    const known = this.known.get(chosen.states[h]!) ?? new Map<string, LikelyPlace[]>();
    this.known.set(chosen.states[h]!, known);
    const [only, ...others] = chosen.edges[h]!;
    const key = others.reduce((text, { to }) => `${text} ${to}`, `${only?.to}`);
    const places = known.get(key) ?? this.work(h, chosen, weights);
    known.set(key, places);
    return places;
  }

  private work(h: number, { graph, states, edges }: Chosen, weights: Float64Array): LikelyPlace[] {
    const informative = this.informativeNodes[h]!;
    const { state } = states[h]!;
    const { tree, station } = this.site.trunks[informative.trunk]!;
    const cases =
      informative.tails.length > 0
        ? casesOf(this.site, informative, graph.group, state, false)
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
    const setting = { informative, cases, weights, runs, pairs, products };
    const places: LikelyPlace[] = [];
    if (informative.kind === 'port' && state > 0)
      places.push({ place: { kind: 'port', trunk: tree.id }, probability: 1 });
    if (informative.kind === 'node' && station[informative.node]) {
      const probability = stationFault(this.site, graph.group, setting, state);
      const { classes, short } = station[informative.node]!;
      const prior = classes.reduce((sum, chance, k) => (k === 0 ? sum : sum + chance), short);
      if (isRaised(probability, prior))
        places.push({
          place: { kind: 'station', trunk: tree.id, node: tree.nodeIds[informative.node]! },
          probability,
        });
    }
    const shares = weights.length > 1 ? contextShares(setting) : weights;
    const scales = Array.from(shares, (_, context) => scaleOf(setting, context));
    runs.forEach((chances, j) => {
      const run = informative.runs[j] ?? informative.tails[j - informative.runs.length]!;
      const below = informative.below[j];
      const to = below === undefined ? null : states[below]!.state;
      const above = weightsAbove(setting, shares, scales, j, run.pairs().length);
      places.push(...runPlaces(tree, run, { feeds: cases.feeds, above, to, chances }));
    });
    return places;
  }
}
