/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { contextCount, contextMap } from './contexts.js';
import { FEED_CLASSES } from './feed-classes.js';
import type { SpanTables } from './span-tables.js';
import { STATE_COUNT, STATES, UNIONS } from './states.js';

/** The spans that one node feeds, joined: the view is the union of theirs, the feed is the same for all. */
export interface Join {
  readonly contexts: number;
  readonly spans: readonly SpanTables[];
  /** The context of each span for each context of the node. */
  readonly maps: readonly Int32Array[];
  /** Products of no span, of the first, of the first two, …; one of one span is that span's own table. */
  readonly products: readonly Product[];
}

/** Tables by context: the one of a context starts at at[context]. */
export interface Product {
  readonly tables: Float64Array;
  readonly at: Int32Array;
}

/** No spans below: nothing is seen, whatever the feed. */
const NOTHING_BELOW = Float64Array.from(STATES.view, (view) => (view === 0 ? 1 : 0));

function multiply(left: Product, span: SpanTables, map: Int32Array): Product {
  const contexts = left.at.length;
  const tables = new Float64Array(contexts * STATE_COUNT);
  const at = Int32Array.from({ length: contexts }, (_, context) => context * STATE_COUNT);
  const { left: first, right: second, union } = UNIONS;
  for (let context = 0; context < contexts; context++) {
    const leftAt = left.at[context]!;
    const rightAt = map[context]! * STATE_COUNT;
    for (let i = 0; i < union.length; i++)
      tables[at[context]! + union[i]!]! +=
        left.tables[leftAt + first[i]!]! * span.top[rightAt + second[i]!]!;
  }
  return { tables, at };
}

export function joinSpans(
  groups: number,
  flags: readonly number[],
  spans: readonly SpanTables[],
  spanFlags: readonly (readonly number[])[],
): Join {
  const contexts = contextCount(groups, flags);
  const maps = spanFlags.map((open) => contextMap(groups, flags, open));
  const products: Product[] = [{ tables: NOTHING_BELOW, at: new Int32Array(contexts) }];
  spans.forEach((span, k) => {
    const map = maps[k]!;
    products.push(
      k === 0
        ? { tables: span.top, at: map.map((context) => context * STATE_COUNT) }
        : multiply(products[k]!, span, map),
    );
  });
  return { contexts, spans, maps, products };
}

/** The product of all the spans. */
export function joined(join: Join): Product {
  return join.products[join.spans.length]!;
}

/** The gauge of that product: the sum of the spans' gauges. */
export function joinedGauge(join: Join, context: number, feed: number): number {
  let sum = 0;
  for (let k = 0; k < join.spans.length; k++)
    sum += join.spans[k]!.topGauge[join.maps[k]![context]! * FEED_CLASSES + feed]!;
  return sum;
}

/**
 * The way back: from the message that comes down to the product of all spans (by context of the node) to those that
 * come down to each span (by its own contexts). Each factor is reached by multiplying by the others, never by dividing.
 */
export function splitJoin(join: Join, down: Float64Array): Float64Array[] {
  const parts = join.spans.map((span) => new Float64Array(span.contexts * STATE_COUNT));
  let whole = down;
  for (let k = join.spans.length - 1; k > 0; k--) {
    const left = join.products[k]!;
    const span = join.spans[k]!;
    const rest = new Float64Array(whole.length);
    for (let context = 0; context < join.contexts; context++)
      splitProduct(
        whole,
        rest,
        { tables: left.tables, at: left.at[context]! },
        { tables: span.top, at: join.maps[k]![context]! * STATE_COUNT },
        parts[k]!,
        context * STATE_COUNT,
      );
    whole = rest;
  }
  const [map] = join.maps;
  const [first] = parts;
  if (map && first)
    for (let context = 0; context < join.contexts; context++)
      for (let s = 0; s < STATE_COUNT; s++)
        first[map[context]! * STATE_COUNT + s]! += whole[context * STATE_COUNT + s]!;
  return parts;
}

function splitProduct(
  whole: Float64Array,
  rest: Float64Array,
  left: { tables: Float64Array; at: number },
  right: { tables: Float64Array; at: number },
  part: Float64Array,
  at: number,
): void {
  for (let i = 0; i < UNIONS.union.length; i++) {
    const mass = whole[at + UNIONS.union[i]!]!;
    rest[at + UNIONS.left[i]!]! += mass * right.tables[right.at + UNIONS.right[i]!]!;
    part[right.at + UNIONS.right[i]!]! += mass * left.tables[left.at + UNIONS.left[i]!]!;
  }
}
