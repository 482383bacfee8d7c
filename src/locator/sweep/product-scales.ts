/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { exp } from '../../elementary/exp.js';
import { ln } from '../../elementary/ln.js';
import { columnScale } from './scale.js';
import type { StateSpace } from './state-space.js';
import { zeroTable } from '../numbers/zero-table.js';

// Branches that join multiply, and a thousand of them leave the range of doubles, one feed sooner than the other. So each
// product of two may be scaled, by context and class of feed, and has a scale of its own.

/**
 * A table by state, label and context of the node: state s of label l and context c is at
 * at + s * stride + l * step + map[c].
 */
export interface Product {
  readonly table: Float64Array;
  readonly at: number;
  readonly stride: number;
  readonly labels: number;
  readonly step: number;
  readonly map: Int32Array;
  /** Its scale by feed * contexts + context; null where there are no spans, or one, which has its own. */
  readonly logScale: Float64Array | null;
}

/** By feed * contexts + context, what the two tables that are multiplied are scaled by. */
export interface Scales {
  readonly left: Float64Array;
  readonly right: Float64Array;
}

/** One array for each length. */
export function rememberedMap(of: (context: number) => number): (contexts: number) => Int32Array {
  const known = new Map<number, Int32Array>();
  return (contexts) => {
    const found =
      known.get(contexts) ?? Int32Array.from({ length: contexts }, (_, context) => of(context));
    known.set(contexts, found);
    return found;
  };
}

/** Maps every context to itself. */
export const sameContexts = rememberedMap((context) => context);

/** The largest entry by feed * contexts + context. Every view of one branch can go with every view of another. */
export function largest(
  { count, feeds, feed }: StateSpace,
  contexts: number,
  { table, at, stride, labels, step, map }: Product,
) {
  const most = zeroTable(feeds * contexts);
  for (let s = 0; s < count; s++) {
    const to = feed[s]! * contexts;
    for (let l = 0; l < labels; l++) {
      const from = at + s * stride + l * step;
      for (let c = 0; c < contexts; c++)
        if (table[from + map[c]!]! > most[to + c]!) most[to + c] = table[from + map[c]!]!;
    }
  }
  return most;
}

/** Far inside the range of doubles, squares too. */
const LEAST_ENTRY = 1e-60;
const MOST_ENTRY = 1e60;

const isInRange = (most: number) => most === 0 || (most >= LEAST_ENTRY && most <= MOST_ENTRY);

/**
 * What the two sides of a product are scaled by, given the largest entries of each; its largest entries are near 1 then.
 * `scales`, at first the sum of the sides', become the product's. Null where it stays in range without.
 */
export function chooseScales(
  contexts: number,
  logScales: Float64Array,
  left: Float64Array,
  right: Float64Array,
): Scales | null {
  if (left.every(isInRange) && right.every(isInRange)) return null;
  const scales = { left: zeroTable(left.length), right: zeroTable(left.length) };
  const logs = logScales.map((logScale, i) => logScale + ln(left[i]!) + ln(right[i]!));
  for (let c = 0; c < contexts; c++) {
    let most = -Infinity;
    for (let i = c; i < logs.length; i += contexts) most = Math.max(most, logs[i]!);
    for (let i = c; i < logs.length; i += contexts) {
      logScales[i] = columnScale(logs[i]!, most);
      if (logs[i] === -Infinity) continue;
      scales.left[i] = 1 / left[i]!;
      scales.right[i] = exp(logs[i]! - logScales[i]!) / right[i]!;
    }
  }
  return scales;
}

/** A copy of a table, each entry scaled. */
export function scaled(
  { count, feed }: StateSpace,
  contexts: number,
  product: Product,
  scales: Float64Array,
): Product {
  const { table, at, stride, labels, step, map } = product;
  const copy = zeroTable(labels * contexts * count);
  for (let s = 0; s < count; s++) {
    const of = feed[s]! * contexts;
    for (let l = 0; l < labels; l++) {
      const from = at + s * stride + l * step;
      const to = (s * labels + l) * contexts;
      for (let c = 0; c < contexts; c++) copy[to + c] = table[from + map[c]!]! * scales[of + c]!;
    }
  }
  return {
    table: copy,
    at: 0,
    stride: labels * contexts,
    labels,
    step: contexts,
    map: sameContexts(contexts),
    logScale: product.logScale,
  };
}

/** The same in place, of a message down to such a table. */
export function scaleDown(
  { count, feed }: StateSpace,
  contexts: number,
  table: Float64Array,
  labels: number,
  scales: Float64Array,
): void {
  for (let s = 0; s < count; s++) {
    const of = feed[s]! * contexts;
    for (let l = 0; l < labels; l++)
      for (let c = 0; c < contexts; c++) table[(s * labels + l) * contexts + c]! *= scales[of + c]!;
  }
}
