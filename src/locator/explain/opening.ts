/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { HubState } from './hub-state.js';
import type { Hub } from './hubs.js';
import type { Inside } from './inside.js';
import { type Cases, CLASS_OF_FEED } from './local-cases.js';

/** What everything but one run makes of its view, at context * cases + case: weights * exp(logs). */
export interface Opening {
  readonly weights: Float64Array;
  readonly logs: Float64Array;
}

export function opening(hub: Hub, h: number, j: number, from: HubState, inside: Inside): Opening {
  const { outerOf, closing, below, contextAtTop, isFirst } = hub;
  const { feeds, width, local } = from.cases;
  const weights = below.length > 1 ? local.slice() : local;
  const logs = new Float64Array(outerOf.length * feeds.length);
  for (let context = 0; context < outerOf.length; context++)
    feeds.forEach((feed, k) => {
      const at = context * feeds.length + k;
      logs[at] = from.outside[outerOf[context]!]! + closing[context]! + from.cases.logs[context]!;
      const own = weights.subarray(at * width, (at + 1) * width);
      for (let other = 0; other < below.length; other++) {
        if (other === j) continue;
        // A label at the top comes from several below, which are summed up in the message already.
        if (!isFirst[other]![context]) own.fill(0);
        const of = contextAtTop[other]![context]!;
        const { views, log } = inside.above(h, other, of, CLASS_OF_FEED[feed]!);
        logs[at] += log;
        own.set(unite(own, views));
      }
    });
  return { weights, logs };
}

/** Weights by the view of some spans, from those by the view of these and one more, whose views are given. */
export function unite(weights: Float64Array, views: Float64Array): Float64Array {
  const united = new Float64Array(weights.length);
  for (let a = 0; a < weights.length; a++)
    for (let b = 0; b < views.length; b++) united[a]! += views[b]! * weights[a | b]!;
  return united;
}

/** `pairs`: by context, the pair of labels of the run. */
export function through(
  { local, logs: scale, feeds, width }: Cases,
  chances: Float64Array,
  pairs: Int32Array,
): Float64Array {
  const cells = feeds.length * width;
  const logs = new Float64Array(pairs.length);
  for (let context = 0; context < logs.length; context++) {
    const row = pairs[context]! * cells;
    let sum = 0;
    for (let i = 0; i < cells; i++) sum += local[context * cells + i]! * chances[row + i]!;
    logs[context] = Math.log(sum) + scale[context]!;
  }
  return logs;
}
