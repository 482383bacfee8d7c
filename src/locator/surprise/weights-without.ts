/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { exp } from '../../elementary/exp.js';
import { ln } from '../../elementary/ln.js';
import { CONFUSED_LIKELIHOOD } from '../../plan/error-rates.js';
import type { FunctionSet } from '../../plan/functions.js';
import { DEAD_FEED } from '../sweep/feed-classes.js';
import { conditionOf } from '../sweep/node-likelihood.js';
import type { SweptSite } from '../sweep/sweep-site.js';
import type { StatementsOfOne } from '../sweep/statements.js';
import type { TrunkModel } from '../sweep/trunk-model.js';

/**
 * For each statement of the `v`th informant at a node, P(evidence without it) / P(evidence): E[1 / its likelihood], over the
 * posterior with it. Its likelihood depends on one station, its feed, the head-end and whether who told it is confused, and
 * that posterior is there after the sweeps; so no statement needs a sweep of its own. Where a likelihood is 0, what only
 * the statement rules out is not in it.
 */
export function weightsWithout(
  swept: SweptSite,
  trunk: number,
  node: number,
  v: number,
): Float64Array {
  const { site, sweeps, live } = swept;
  const model = site.trunks[trunk]!;
  const station = model.station[node]!;
  const seen = model.likelihood[node]!.table;
  const { feeds: feedCount } = model.space;
  const ofOne = model.statements[node]![v]!;
  const { count: stationCount, disables } = site.system.stationClasses;
  const { at, contexts } = sweeps[trunk]!.tables.nodes[node]!;
  const { feeds, shorted } = swept.trunks[trunk]!;
  const flag = model.plan.nodeFlags[node]!.indexOf(ofOne.flag);
  const weights = new Float64Array(ofOne.items.length);
  const likelihoods = new Float64Array(ofOne.items.length);
  const alive = live(contexts);
  for (let l = 0; l < alive.length; l++) {
    const context = alive[l]!;
    const group = context % site.headEnd.count;
    const isFlagged = flag >= 0 && (Math.floor(context / site.headEnd.count) >> flag) & 1;
    const confused = isFlagged ? 1 : ofOne.confused;
    const headEnd = site.headEnd.disables[model.zone[node]!]![group]!;
    for (let feed = 0; feed < feedCount; feed++) {
      const arrives = feeds[at * feedCount + feed * contexts + context]!;
      for (let k = 0; k < stationCount; k++) {
        const likelihood = seen[(context * stationCount + k) * feedCount + feed]!;
        let mass = station.classes[k]! * arrives * likelihood;
        if (k === 0 && feed === DEAD_FEED)
          mass += station.short * shorted[at + context]! * likelihood;
        if (!(mass > 0)) continue;
        likelihoodsOf(model, ofOne, feed, headEnd | disables[k]!, likelihoods);
        addWithout(weights, mass, likelihoods, confused);
      }
    }
  }
  return weights;
}

/** Sets the likelihood of each statement, by what arrives and what is disabled. */
function likelihoodsOf(
  { space: { classes }, system: { feedClasses } }: TrunkModel,
  { items }: StatementsOfOne,
  feed: number,
  disabled: FunctionSet,
  likelihoods: Float64Array,
): void {
  for (let s = 0; s < items.length; s++) {
    const { func, way, likelihood } = items[s]!;
    likelihoods[s] = likelihood[conditionOf(feedClasses, func, classes[way]![feed]!, disabled)];
  }
}

/** Adds a mass, divided by the likelihood of each statement in it. */
function addWithout(
  weights: Float64Array,
  mass: number,
  likelihoods: Float64Array,
  confused: number,
): void {
  const isConfused = chanceOfConfusion(confused, likelihoods);
  for (let s = 0; s < weights.length; s++) {
    const clear = isConfused < 1 ? (1 - isConfused) / likelihoods[s]! : 0;
    weights[s]! += mass * (clear + isConfused / CONFUSED_LIKELIHOOD);
  }
}

/** P(who told it is confused | what was told here, condition of every function). */
function chanceOfConfusion(confused: number, likelihoods: Float64Array): number {
  if (confused === 0 || confused === 1) return confused;
  let log = ln(confused / (1 - confused));
  for (const likelihood of likelihoods) log += ln(CONFUSED_LIKELIHOOD / likelihood);
  return 1 / (1 + exp(-log));
}
