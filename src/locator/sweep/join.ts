/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { contextMap } from './contexts.js';
import { FEED_CLASSES } from './feed-classes.js';
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
}

/** A table by state and context of the node: state s of context c is at at + s * stride + map[c]. */
export interface Product {
  readonly table: Float64Array;
  readonly at: number;
  readonly stride: number;
  readonly map: Int32Array;
}

/** No spans below: nothing is seen, whatever the feed. */
const NOTHING_BELOW = Float64Array.from(STATES.view, (view) => (view === 0 ? 1 : 0));

const SAME = new Map<number, Int32Array>();

/** Maps every context to itself; one array for each length. */
function same(contexts: number): Int32Array {
  const known = SAME.get(contexts) ?? Int32Array.from({ length: contexts }, (_, c) => c);
  SAME.set(contexts, known);
  return known;
}

function multiply(contexts: number, left: Product, right: Product): Product {
  const table = new Float64Array(contexts * STATE_COUNT);
  for (let i = 0; i < UNIONS.union.length; i++) {
    const a = left.at + UNIONS.left[i]! * left.stride;
    const b = right.at + UNIONS.right[i]! * right.stride;
    const to = UNIONS.union[i]! * contexts;
    for (let c = 0; c < contexts; c++)
      table[to + c]! += left.table[a + left.map[c]!]! * right.table[b + right.map[c]!]!;
  }
  return { table, at: 0, stride: contexts, map: same(contexts) };
}

function spanProduct(top: Float64Array, span: SpanSlot, map: Int32Array): Product {
  return { table: top, at: span.at * STATE_COUNT, stride: span.contexts, map };
}

export function joinSpans(
  tables: TrunkTables,
  groups: number,
  flags: readonly number[],
  spans: readonly SpanSlot[],
  spanFlags: readonly (readonly number[])[],
): Join {
  const contexts = groups << flags.length;
  const maps = spanFlags.map((open) =>
    open.length === flags.length ? same(contexts) : contextMap(groups, flags, open),
  );
  const nothing = { table: NOTHING_BELOW, at: 0, stride: 1, map: new Int32Array(contexts) };
  const products: Product[] = [nothing];
  spans.forEach((span, k) => {
    const right = spanProduct(tables.top, span, maps[k]!);
    products.push(k === 0 ? right : multiply(contexts, products[k]!, right));
  });
  return { contexts, spans, maps, products };
}

/** The product of all the spans. */
export function joined(join: Join): Product {
  return join.products[join.spans.length]!;
}

/** The gauge of that product: the sum of the spans' gauges. */
export function joinedGauge(
  tables: TrunkTables,
  join: Join,
  context: number,
  feed: number,
): number {
  let sum = 0;
  for (let k = 0; k < join.spans.length; k++) {
    const { at, contexts } = join.spans[k]!;
    sum += tables.topGauge[at * FEED_CLASSES + feed * contexts + join.maps[k]![context]!]!;
  }
  return sum;
}

/** Adds `part`, a table by state and context of the node, to the message down at the top of a span. */
function addToSpan(down: Float64Array, span: SpanSlot, map: Int32Array, part: Float64Array): void {
  const contexts = map.length;
  for (let s = 0; s < STATE_COUNT; s++) {
    const to = span.at * STATE_COUNT + s * span.contexts;
    for (let c = 0; c < contexts; c++) down[to + map[c]!]! += part[s * contexts + c]!;
  }
}

/**
 * The way back: from the message that comes down to the product of all spans to those that come down to each span, which
 * are left in tables.down. Each factor is reached by multiplying by the others, never by dividing.
 */
export function splitJoin(tables: TrunkTables, join: Join, down: Float64Array): void {
  const { contexts, spans, maps, products } = join;
  let whole = down;
  for (let k = spans.length - 1; k > 0; k--) {
    const left = products[k]!;
    const right = spanProduct(tables.top, spans[k]!, maps[k]!);
    const rest = new Float64Array(contexts * STATE_COUNT);
    const part = new Float64Array(contexts * STATE_COUNT);
    for (let i = 0; i < UNIONS.union.length; i++) {
      const union = UNIONS.union[i]! * contexts;
      const a = UNIONS.left[i]!;
      const b = UNIONS.right[i]!;
      for (let c = 0; c < contexts; c++) {
        const mass = whole[union + c]!;
        rest[a * contexts + c]! += mass * right.table[right.at + b * right.stride + right.map[c]!]!;
        part[b * contexts + c]! += mass * left.table[left.at + a * left.stride + left.map[c]!]!;
      }
    }
    addToSpan(tables.down, spans[k]!, maps[k]!, part);
    whole = rest;
  }
  if (spans.length > 0) addToSpan(tables.down, spans[0]!, maps[0]!, whole);
}
