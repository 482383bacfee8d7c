/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { LabelJoin, Pairs } from '../readings/label-joins.js';
import { contextMap } from './contexts.js';
import {
  chooseScales,
  largest,
  type Product,
  rememberedMap,
  sameContexts,
  scaled,
  type Scales,
} from './product-scales.js';
import type { StateSpace } from './state-space.js';
import type { SpanSlot, TrunkTables } from './trunk-tables.js';
import { zeroTable } from '../numbers/zero-table.js';

/** The spans that one node feeds, joined: the view is the union of theirs, the feed is the same for all. */
export interface Join {
  readonly space: StateSpace;
  readonly contexts: number;
  readonly spans: readonly SpanSlot[];
  /** The context of each span for each context of the node. */
  readonly maps: readonly Int32Array[];
  /** Products of no span, of the first, of the first two, …; that of one span is the span's own table. */
  readonly products: readonly Product[];
  /** What the product of k spans and the next one are scaled by when they are multiplied; null where by nothing. */
  readonly scales: readonly (Scales | null)[];
  /** How each further span joins those before it, where labels do not simply stay. */
  readonly labelJoins: readonly LabelJoin[];
  /** Where the node's spans were disconnected for something told; null where not. */
  readonly cut: Cut | null;
}

/** A node below which the trunk was disconnected for something told. */
export interface Cut {
  /** By state and by feed of the node, those of what it feeds; -1 where there are none. */
  readonly below: Int32Array;
  readonly feedBelow: Int32Array;
  /** The product of all spans by states of the node. */
  readonly product: Product;
}

/** Whether the node's table is that of its only span. */
export function isOnlySpan({ spans, contexts, cut }: Join): boolean {
  return spans.length === 1 && spans[0]!.contexts === contexts && cut === null;
}

/** Whether nothing but the places in these tables is in it, and so no message: of one span at most. */
export function isOfTables({ spans, products, cut }: Join, { top }: TrunkTables): boolean {
  if (cut !== null || spans.length > 1) return false;
  return spans.length === 0 || products[1]?.table === top;
}

/** Maps every context to the only one. */
const zeros = rememberedMap(() => 0);

const NO_LABELS: Pairs = {
  left: Uint16Array.of(0),
  right: Uint16Array.of(0),
  out: Uint16Array.of(0),
  weight: Float64Array.of(1),
};

/** The pairs of labels to multiply where the branches are in these states; none where no label goes with them. */
export function pairsAt(
  { view }: StateSpace,
  labels: LabelJoin | undefined,
  left: number,
  right: number,
): Pairs | undefined {
  if (!labels) return NO_LABELS;
  const { loopCores, pairs } = labels;
  return pairs.get((view[left]! & loopCores) * 16 + (view[right]! & loopCores));
}

function multiply(
  space: StateSpace,
  contexts: number,
  left: Product,
  right: Product,
  labelJoin: LabelJoin | undefined,
  logScale: Float64Array,
): Product {
  const labels = labelJoin?.labels ?? 1;
  const stride = labels * contexts;
  const table = zeroTable(stride * space.count);
  const { left: lefts, right: rights, union } = space.unions;
  for (let i = 0; i < union.length; i++) {
    const pairs = pairsAt(space, labelJoin, lefts[i]!, rights[i]!);
    if (!pairs) continue;
    for (let p = 0; p < pairs.out.length; p++) {
      const a = left.at + lefts[i]! * left.stride + pairs.left[p]! * left.step;
      const b = right.at + rights[i]! * right.stride + pairs.right[p]! * right.step;
      const to = union[i]! * stride + pairs.out[p]! * contexts;
      const weight = pairs.weight[p]!;
      for (let c = 0; c < contexts; c++)
        table[to + c]! += weight * left.table[a + left.map[c]!]! * right.table[b + right.map[c]!]!;
    }
  }
  return { table, at: 0, stride, labels, step: contexts, map: sameContexts(contexts), logScale };
}

export function spanProduct(
  { count }: StateSpace,
  top: Float64Array,
  span: SpanSlot,
  map: Int32Array,
): Product {
  const { at, columns, labels, contexts } = span;
  return {
    table: top,
    at: at * count,
    stride: columns,
    labels,
    step: contexts,
    map,
    logScale: null,
  };
}

const NOTHING = new WeakMap<StateSpace, (Product | undefined)[]>();

/** The product of no span. */
function nothingBelow(space: StateSpace, contexts: number): Product {
  const known = NOTHING.get(space) ?? [];
  NOTHING.set(space, known);
  return (known[contexts] ??= {
    table: space.nothingBelow,
    at: 0,
    stride: 1,
    labels: 1,
    step: 0,
    map: zeros(contexts),
    logScale: null,
  });
}

export function joinSpans(
  tables: TrunkTables,
  groups: number,
  flags: readonly number[],
  spans: readonly SpanSlot[],
  spanFlags: readonly (readonly number[])[],
  labelJoins: readonly LabelJoin[] = [],
  way = 0,
): Join {
  const { space } = tables;
  const contexts = groups << flags.length;
  const maps = spanFlags.map((open) =>
    open.length === flags.length ? sameContexts(contexts) : contextMap(groups, flags, open),
  );
  const nothing = nothingBelow(space, contexts);
  const [first] = spans;
  const products = first ? [nothing, spanProduct(space, tables.top, first, maps[0]!)] : [nothing];
  const scales: (Scales | null)[] = [null];
  const join = { space, contexts, spans, maps, products, scales, labelJoins, cut: null };
  for (let k = 1; k < spans.length; k++)
    addSpan(tables, join, spanProduct(space, tables.top, spans[k]!, maps[k]!));
  return way === 0 ? join : { ...join, cut: cutAt(tables, join, way) };
}

/** The product of the spans by states of the node: of what they see and get it is cut off in one way of connecting. */
function cutAt(tables: ScaledTables, join: Join, way: number): Cut {
  const { space } = join;
  const maps = { below: space.belowCut(way), feedBelow: space.feedBelowCut(way) };
  return { ...maps, product: byNodeStates(tables, join, maps, lastProduct(join)) };
}

export function byNodeStates(
  tables: ScaledTables,
  join: Join,
  { below, feedBelow }: Omit<Cut, 'product'>,
  { table, at, stride, labels, step, map }: Product,
): Product {
  const { space, contexts, spans } = join;
  const width = labels * contexts;
  const whole = zeroTable(space.count * width);
  for (let s = 0; s < space.count; s++)
    for (let l = 0; below[s]! >= 0 && l < labels; l++)
      for (let c = 0; c < contexts; c++)
        whole[s * width + l * contexts + c] = table[at + below[s]! * stride + l * step + map[c]!]!;
  const logScale = zeroTable(space.feeds * contexts);
  for (let i = 0; i < logScale.length; i++) {
    const feed = feedBelow[Math.floor(i / contexts)]!;
    if (feed >= 0) logScale[i] = productScale(tables, join, spans.length, i % contexts, feed);
  }
  return {
    table: whole,
    at: 0,
    stride: width,
    labels,
    step: contexts,
    map: sameContexts(contexts),
    logScale,
  };
}

type ScaledTables = Pick<TrunkTables, 'topScale'>;

interface Joining extends Join {
  readonly products: Product[];
  readonly scales: (Scales | null)[];
}

/** One more span joins those before it. */
function addSpan(tables: Pick<TrunkTables, 'topScale'>, join: Joining, right: Product): void {
  const { space, contexts, products, scales, labelJoins } = join;
  const k = products.length - 1;
  const left = products[k]!;
  const logScales = zeroTable(join.space.feeds * contexts);
  for (let i = 0; i < logScales.length; i++) {
    const [c, feed] = [i % contexts, Math.floor(i / contexts)];
    logScales[i] = productScale(tables, join, k, c, feed) + spanScale(tables, join, k, c, feed);
  }
  const chosen = chooseScales(
    contexts,
    logScales,
    largest(space, contexts, left),
    largest(space, contexts, right),
  );
  scales.push(chosen);
  products.push(
    multiply(
      space,
      contexts,
      chosen ? scaled(space, contexts, left, chosen.left) : left,
      chosen ? scaled(space, contexts, right, chosen.right) : right,
      labelJoins[k - 1],
      logScales,
    ),
  );
}

function spanScale(
  { topScale }: Pick<TrunkTables, 'topScale'>,
  { space, spans, maps }: Join,
  k: number,
  context: number,
  feed: number,
): number {
  const { scaleAt, contexts } = spans[k]!;
  return topScale[scaleAt * space.feeds + feed * contexts + maps[k]![context]!]!;
}

/** The scale of the product of the first `count` spans. */
function productScale(
  tables: Pick<TrunkTables, 'topScale'>,
  join: Join,
  count: number,
  context: number,
  feed: number,
): number {
  const { logScale } = join.products[count]!;
  if (logScale) return logScale[feed * join.contexts + context]!;
  return count === 0 ? 0 : spanScale(tables, join, 0, context, feed);
}

/** The product of all the spans. */
export function joined(join: Join): Product {
  return join.cut?.product ?? lastProduct(join);
}

function lastProduct({ products, spans }: Join): Product {
  return products[spans.length]!;
}

/** The scale of that product. */
export function joinedScale(
  tables: Pick<TrunkTables, 'topScale'>,
  join: Join,
  context: number,
  feed: number,
): number {
  const logScale = join.cut?.product.logScale;
  if (logScale) return logScale[feed * join.contexts + context]!;
  return productScale(tables, join, join.spans.length, context, feed);
}

/** The product of the first k spans and of the next one, scaled as theirs was. */
export function multiplyAt(
  { space, contexts, products, scales, labelJoins }: Join,
  k: number,
  left: Product,
  right: Product,
): Product {
  const own = scales[k];
  return multiply(
    space,
    contexts,
    own ? scaled(space, contexts, left, own.left) : left,
    own ? scaled(space, contexts, right, own.right) : right,
    labelJoins[k - 1],
    products[k + 1]!.logScale!,
  );
}
