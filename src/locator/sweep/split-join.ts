/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { LabelJoin } from '../readings/label-joins.js';
import { byNodeStates, type Cut, type Join, multiplyAt, pairsAt, spanProduct } from './join.js';
import { type Product, scaled, scaleDown, type Scales } from './product-scales.js';
import type { StateSpace } from './state-space.js';
import type { SpanSlot, TrunkTables } from './trunk-tables.js';
import { zeroTable } from '../numbers/zero-table.js';

// The way back down through joined spans.

/** Adds `part`, a table by state, label and context of the node, to the message down at the top of a span. */
function addToSpan(
  { count }: StateSpace,
  down: Float64Array,
  span: SpanSlot,
  map: Int32Array,
  part: Float64Array,
): void {
  const contexts = map.length;
  for (let s = 0; s < count; s++)
    for (let l = 0; l < span.labels; l++) {
      const to = span.at * count + s * span.columns + l * span.contexts;
      const from = (s * span.labels + l) * contexts;
      for (let c = 0; c < contexts; c++) down[to + map[c]!]! += part[from + c]!;
    }
}

/** From the message down to a product of two to those down to each: multiplied by the other, never divided. */
function splitProduct(
  space: StateSpace,
  contexts: number,
  whole: Float64Array,
  left: Product,
  right: Product,
  labelJoin: LabelJoin | undefined,
): { toLeft: Float64Array; toRight: Float64Array } {
  const labels = labelJoin?.labels ?? 1;
  const toLeft = zeroTable(left.labels * contexts * space.count);
  const toRight = zeroTable(right.labels * contexts * space.count);
  const { left: lefts, right: rights, union } = space.unions;
  for (let i = 0; i < union.length; i++) {
    const a = lefts[i]!;
    const b = rights[i]!;
    const pairs = pairsAt(space, labelJoin, a, b);
    if (!pairs) continue;
    for (let p = 0; p < pairs.out.length; p++) {
      const [l, r] = [pairs.left[p]!, pairs.right[p]!];
      const from = (union[i]! * labels + pairs.out[p]!) * contexts;
      const leftAt = left.at + a * left.stride + l * left.step;
      const rightAt = right.at + b * right.stride + r * right.step;
      const leftTo = (a * left.labels + l) * contexts;
      const rightTo = (b * right.labels + r) * contexts;
      for (let c = 0; c < contexts; c++) {
        const mass = pairs.weight[p]! * whole[from + c]!;
        toLeft[leftTo + c]! += mass * right.table[rightAt + right.map[c]!]!;
        toRight[rightTo + c]! += mass * left.table[leftAt + left.map[c]!]!;
      }
    }
  }
  return { toLeft, toRight };
}

/** The same where the two are scaled, and so the messages down to them. */
function splitScaled(
  space: StateSpace,
  contexts: number,
  whole: Float64Array,
  left: Product,
  right: Product,
  labelJoin: LabelJoin | undefined,
  scales: Scales,
): { toLeft: Float64Array; toRight: Float64Array } {
  const a = scaled(space, contexts, left, scales.left);
  const b = scaled(space, contexts, right, scales.right);
  const split = splitProduct(space, contexts, whole, a, b, labelJoin);
  scaleDown(space, contexts, split.toLeft, left.labels, scales.left);
  scaleDown(space, contexts, split.toRight, right.labels, scales.right);
  return split;
}

/** The way back: from the message down to the product of all spans to those down to each, by state, label and context. */
export function splitInto(
  tables: TrunkTables,
  join: Join,
  down: Float64Array,
  visit: (span: number, part: Float64Array) => void,
): void {
  const { space, contexts, spans, maps, products, scales, labelJoins, cut } = join;
  let whole = cut ? toStatesBelow(cut, space.count, down) : down;
  for (let k = spans.length - 1; k > 0; k--) {
    const right = spanProduct(space, tables.top, spans[k]!, maps[k]!);
    const [left, own, labelJoin] = [products[k]!, scales[k], labelJoins[k - 1]];
    const split = own
      ? splitScaled(space, contexts, whole, left, right, labelJoin, own)
      : splitProduct(space, contexts, whole, left, right, labelJoin);
    visit(k, split.toRight);
    whole = split.toLeft;
  }
  if (spans.length > 0) visit(0, whole);
}

/** A message down to the node's states as one to those of what it feeds. */
function toStatesBelow({ below }: Cut, states: number, down: Float64Array): Float64Array {
  const width = down.length / states;
  const found = zeroTable(down.length);
  for (let s = 0; s < states; s++)
    for (let i = 0; below[s]! >= 0 && i < width; i++)
      found[below[s]! * width + i]! += down[s * width + i]!;
  return found;
}

/** The same, left in tables.down. */
export function splitJoin(tables: TrunkTables, join: Join, down: Float64Array): void {
  splitInto(tables, join, down, (k, part) => {
    addToSpan(tables.space, tables.down, join.spans[k]!, join.maps[k]!, part);
  });
}

/** The product of all the spans, with another table in place of one span's own: by state and column, in its scale. */
export function productWith(
  tables: TrunkTables,
  join: Join,
  span: number,
  table: Float64Array,
): Product {
  const { space, spans, maps, products, cut } = join;
  const { columns, labels, contexts } = spans[span]!;
  const map = maps[span]!;
  const replaced = { table, at: 0, stride: columns, labels, step: contexts, map, logScale: null };
  let product = span === 0 ? replaced : multiplyAt(join, span, products[span]!, replaced);
  for (let k = span + 1; k < spans.length; k++)
    product = multiplyAt(join, k, product, spanProduct(space, tables.top, spans[k]!, maps[k]!));
  return cut ? byNodeStates(tables, join, cut, product) : product;
}
