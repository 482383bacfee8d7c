/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ln } from '../../elementary/ln.js';
import type { NodeState } from './node-state.js';
import type { InformativeNode } from './informative-nodes.js';
import type { Inside } from './inside.js';
import { type Cases, classOfFeed } from './local-cases.js';
import { type ScaledViews, ViewProducts } from './view-products.js';
import { zeroTable } from '../numbers/zero-table.js';

/** What everything but one run makes of its view, at context * cases + case: weights * exp(logs). */
export interface Opening {
  readonly weights: Float64Array;
  readonly logs: Float64Array;
  /** Those of context * cases + case of which anything can come. */
  readonly active: Int32Array;
}

/** The openings of one informative node's states to its runs. */
export class Openings {
  /** Of the messages from all runs, by context and class of feed. */
  private readonly products = new Map<number, ViewProducts>();
  constructor(
    private readonly informative: InformativeNode,
    private readonly h: number,
    private readonly inside: Inside,
  ) {}

  of(j: number, { cases, outside }: NodeState): Opening {
    const { outerOf, closing, below } = this.informative;
    const { feeds, width, local } = cases;
    const classes = classOfFeed(this.inside.system);
    const weights = below.length > 1 ? zeroTable(local.length) : local;
    const logs = zeroTable(outerOf.length * feeds.length);
    for (let context = 0; context < outerOf.length; context++)
      for (let k = 0; k < feeds.length; k++) {
        const at = context * feeds.length + k;
        logs[at] = outside[outerOf[context]!]! + closing[context]! + cases.logs[context]!;
        if (below.length === 1) continue;
        const own = local.subarray(at * width, (at + 1) * width);
        const others = this.productsOf(context, classes[feeds[k]!]!, width).without(j);
        weights.set(unite(own, others.views), at * width);
        logs[at] += others.log;
      }
    return { weights, logs, active: activeOf(logs, weights, width) };
  }

  private productsOf(context: number, feed: number, width: number): ViewProducts {
    const key = context * this.inside.system.feedClasses.count + feed;
    const known = this.products.get(key);
    if (known) return known;
    const { below, contextAtTop, isFirst } = this.informative;
    const branches = below.map((_, other): ScaledViews => {
      // A label at the top comes from several below, which are summed up in the message already.
      if (!isFirst[other]![context]) return { views: zeroTable(width), log: -Infinity };
      return this.inside.above(this.h, other, contextAtTop[other]![context]!, feed);
    });
    const products = new ViewProducts(branches, width);
    this.products.set(key, products);
    return products;
  }
}

const NONE = Int32Array.of();
const FIRST = Int32Array.of(0);

function activeOf(logs: Float64Array, weights: Float64Array, width: number): Int32Array {
  // Nearly everywhere there is one.
  if (logs.length === 1) return logs[0] !== -Infinity && weights.some((w) => w > 0) ? FIRST : NONE;
  const active: number[] = [];
  for (let at = 0; at < logs.length; at++) {
    if (logs[at] === -Infinity) continue;
    const end = (at + 1) * width;
    for (let i = at * width; i < end; i++)
      if (weights[i]! > 0) {
        active.push(at);
        break;
      }
  }
  return Int32Array.from(active);
}

/** Weights by the view of some spans, from those by the view of these and one more, whose views are given. */
export function unite(weights: Float64Array, views: Float64Array): Float64Array {
  const united = zeroTable(weights.length);
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
  const logs = zeroTable(pairs.length);
  for (let context = 0; context < logs.length; context++) {
    const row = pairs[context]! * cells;
    let sum = 0;
    for (let i = 0; i < cells; i++) sum += local[context * cells + i]! * chances[row + i]!;
    logs[context] = ln(sum) + scale[context]!;
  }
  return logs;
}
