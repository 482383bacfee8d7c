/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { LabelJoin, Pairs } from '../readings/label-joins.js';
import { contextMap } from './contexts.js';
import { FEED_CLASSES } from './feed-classes.js';
import {
  chooseScales,
  largest,
  type Product,
  rememberedMap,
  sameContexts,
  scaled,
  type Scales,
  scaleDown,
} from './product-scales.js';
import { STATE_COUNT, STATES, UNIONS } from './states.js';
import type { SpanSlot, TrunkTables } from './trunk-tables.js';

/** The spans that one node feeds, joined: the view is the union of theirs, the feed is the same for all. */
export interface Join {
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
}

/** No spans below: nothing is seen, whatever the feed. */
const NOTHING_BELOW = Float64Array.from(STATES.view, (view) => (view === 0 ? 1 : 0));

/** Maps every context to the only one. */
const zeros = rememberedMap(() => 0);

const NO_LABELS: Pairs = {
  left: Uint16Array.of(0),
  right: Uint16Array.of(0),
  out: Uint16Array.of(0),
};

/** The pairs of labels to multiply where the branches are in these states; none where no label goes with them. */
function pairsAt(labels: LabelJoin | undefined, left: number, right: number): Pairs | undefined {
  if (!labels) return NO_LABELS;
  const { loopCores, pairs } = labels;
  return pairs.get((STATES.view[left]! & loopCores) * 16 + (STATES.view[right]! & loopCores));
}

function multiply(
  contexts: number,
  left: Product,
  right: Product,
  labelJoin: LabelJoin | undefined,
  gauge: Float64Array,
): Product {
  const labels = labelJoin?.labels ?? 1;
  const stride = labels * contexts;
  const table = new Float64Array(stride * STATE_COUNT);
  for (let i = 0; i < UNIONS.union.length; i++) {
    const pairs = pairsAt(labelJoin, UNIONS.left[i]!, UNIONS.right[i]!);
    if (!pairs) continue;
    for (let p = 0; p < pairs.out.length; p++) {
      const a = left.at + UNIONS.left[i]! * left.stride + pairs.left[p]! * left.step;
      const b = right.at + UNIONS.right[i]! * right.stride + pairs.right[p]! * right.step;
      const to = UNIONS.union[i]! * stride + pairs.out[p]! * contexts;
      for (let c = 0; c < contexts; c++)
        table[to + c]! += left.table[a + left.map[c]!]! * right.table[b + right.map[c]!]!;
    }
  }
  return { table, at: 0, stride, labels, step: contexts, map: sameContexts(contexts), gauge };
}

function spanProduct(top: Float64Array, span: SpanSlot, map: Int32Array): Product {
  const { at, columns, labels, contexts } = span;
  return {
    table: top,
    at: at * STATE_COUNT,
    stride: columns,
    labels,
    step: contexts,
    map,
    gauge: null,
  };
}

export function joinSpans(
  tables: TrunkTables,
  groups: number,
  flags: readonly number[],
  spans: readonly SpanSlot[],
  spanFlags: readonly (readonly number[])[],
  labelJoins: readonly LabelJoin[] = [],
): Join {
  const contexts = groups << flags.length;
  const maps = spanFlags.map((open) =>
    open.length === flags.length ? sameContexts(contexts) : contextMap(groups, flags, open),
  );
  const map = zeros(contexts);
  const nothing = { table: NOTHING_BELOW, at: 0, stride: 1, labels: 1, step: 0, map, gauge: null };
  const products: Product[] = [nothing];
  const scales: (Scales | null)[] = [null];
  const join = { contexts, spans, maps, products, scales, labelJoins };
  spans.forEach((span, k) => {
    const right = spanProduct(tables.top, span, maps[k]!);
    if (k === 0) products.push(right);
    else addSpan(tables, join, right);
  });
  return join;
}

interface Joining extends Join {
  readonly products: Product[];
  readonly scales: (Scales | null)[];
}

/** One more span joins those before it. */
function addSpan(tables: Pick<TrunkTables, 'topGauge'>, join: Joining, right: Product): void {
  const { contexts, products, scales, labelJoins } = join;
  const k = products.length - 1;
  const left = products[k]!;
  const gauges = new Float64Array(FEED_CLASSES * contexts);
  for (let i = 0; i < gauges.length; i++) {
    const [c, feed] = [i % contexts, Math.floor(i / contexts)];
    gauges[i] = productGauge(tables, join, k, c, feed) + spanGauge(tables, join, k, c, feed);
  }
  const chosen = chooseScales(contexts, gauges, largest(contexts, left), largest(contexts, right));
  scales.push(chosen);
  products.push(
    multiply(
      contexts,
      chosen ? scaled(contexts, left, chosen.left) : left,
      chosen ? scaled(contexts, right, chosen.right) : right,
      labelJoins[k - 1],
      gauges,
    ),
  );
}

function spanGauge(
  { topGauge }: Pick<TrunkTables, 'topGauge'>,
  { spans, maps }: Join,
  k: number,
  context: number,
  feed: number,
): number {
  const { gaugeAt, contexts } = spans[k]!;
  return topGauge[gaugeAt * FEED_CLASSES + feed * contexts + maps[k]![context]!]!;
}

/** The gauge of the product of the first `count` spans. */
function productGauge(
  tables: Pick<TrunkTables, 'topGauge'>,
  join: Join,
  count: number,
  context: number,
  feed: number,
): number {
  const { gauge } = join.products[count]!;
  if (gauge) return gauge[feed * join.contexts + context]!;
  return count === 0 ? 0 : spanGauge(tables, join, 0, context, feed);
}

/** The product of all the spans. */
export function joined(join: Join): Product {
  return join.products[join.spans.length]!;
}

/** The gauge of that product. */
export function joinedGauge(
  tables: Pick<TrunkTables, 'topGauge'>,
  join: Join,
  context: number,
  feed: number,
): number {
  return productGauge(tables, join, join.spans.length, context, feed);
}

/** Adds `part`, a table by state, label and context of the node, to the message down at the top of a span. */
function addToSpan(down: Float64Array, span: SpanSlot, map: Int32Array, part: Float64Array): void {
  const contexts = map.length;
  for (let s = 0; s < STATE_COUNT; s++)
    for (let l = 0; l < span.labels; l++) {
      const to = span.at * STATE_COUNT + s * span.columns + l * span.contexts;
      const from = (s * span.labels + l) * contexts;
      for (let c = 0; c < contexts; c++) down[to + map[c]!]! += part[from + c]!;
    }
}

/** From the message down to a product of two to those down to each: multiplied by the other, never divided. */
function splitProduct(
  contexts: number,
  whole: Float64Array,
  left: Product,
  right: Product,
  labelJoin: LabelJoin | undefined,
): { toLeft: Float64Array; toRight: Float64Array } {
  const labels = labelJoin?.labels ?? 1;
  const toLeft = new Float64Array(left.labels * contexts * STATE_COUNT);
  const toRight = new Float64Array(right.labels * contexts * STATE_COUNT);
  for (let i = 0; i < UNIONS.union.length; i++) {
    const a = UNIONS.left[i]!;
    const b = UNIONS.right[i]!;
    const pairs = pairsAt(labelJoin, a, b);
    if (!pairs) continue;
    for (let p = 0; p < pairs.out.length; p++) {
      const [l, r] = [pairs.left[p]!, pairs.right[p]!];
      const from = (UNIONS.union[i]! * labels + pairs.out[p]!) * contexts;
      const leftAt = left.at + a * left.stride + l * left.step;
      const rightAt = right.at + b * right.stride + r * right.step;
      const leftTo = (a * left.labels + l) * contexts;
      const rightTo = (b * right.labels + r) * contexts;
      for (let c = 0; c < contexts; c++) {
        const mass = whole[from + c]!;
        toLeft[leftTo + c]! += mass * right.table[rightAt + right.map[c]!]!;
        toRight[rightTo + c]! += mass * left.table[leftAt + left.map[c]!]!;
      }
    }
  }
  return { toLeft, toRight };
}

/** The same where the two are scaled, and so the messages down to them. */
function splitScaled(
  contexts: number,
  whole: Float64Array,
  left: Product,
  right: Product,
  labelJoin: LabelJoin | undefined,
  scales: Scales,
): { toLeft: Float64Array; toRight: Float64Array } {
  const [a, b] = [scaled(contexts, left, scales.left), scaled(contexts, right, scales.right)];
  const split = splitProduct(contexts, whole, a, b, labelJoin);
  scaleDown(contexts, split.toLeft, left.labels, scales.left);
  scaleDown(contexts, split.toRight, right.labels, scales.right);
  return split;
}

/** The way back: from the message down to the product of all spans to those down to each, by state, label and context. */
export function splitInto(
  tables: TrunkTables,
  join: Join,
  down: Float64Array,
  visit: (span: number, part: Float64Array) => void,
): void {
  const { contexts, spans, maps, products, scales, labelJoins } = join;
  let whole = down;
  for (let k = spans.length - 1; k > 0; k--) {
    const right = spanProduct(tables.top, spans[k]!, maps[k]!);
    const [left, own, labelJoin] = [products[k]!, scales[k], labelJoins[k - 1]];
    const split = own
      ? splitScaled(contexts, whole, left, right, labelJoin, own)
      : splitProduct(contexts, whole, left, right, labelJoin);
    visit(k, split.toRight);
    whole = split.toLeft;
  }
  if (spans.length > 0) visit(0, whole);
}

/** The same, left in tables.down. */
export function splitJoin(tables: TrunkTables, join: Join, down: Float64Array): void {
  splitInto(tables, join, down, (k, part) => {
    addToSpan(tables.down, join.spans[k]!, join.maps[k]!, part);
  });
}

/** The product of all the spans, with another table in place of one span's own: by state and column, in its gauge. */
export function productWith(
  tables: TrunkTables,
  join: Join,
  span: number,
  table: Float64Array,
): Product {
  const { spans, maps, products } = join;
  const replaced = { ...spanProduct(table, spans[span]!, maps[span]!), at: 0 };
  let product = span === 0 ? replaced : multiplyAt(join, span, products[span]!, replaced);
  for (let k = span + 1; k < spans.length; k++)
    product = multiplyAt(join, k, product, spanProduct(tables.top, spans[k]!, maps[k]!));
  return product;
}

/** The product of the first k spans and of the next one, scaled as theirs was. */
function multiplyAt(
  { contexts, products, scales, labelJoins }: Join,
  k: number,
  left: Product,
  right: Product,
): Product {
  const own = scales[k];
  return multiply(
    contexts,
    own ? scaled(contexts, left, own.left) : left,
    own ? scaled(contexts, right, own.right) : right,
    labelJoins[k - 1],
    products[k + 1]!.gauge!,
  );
}
