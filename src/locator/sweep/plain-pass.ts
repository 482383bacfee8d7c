/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { ColumnPairs, RowPairs } from './effect-pairs.js';

// Nearly all components leave scales as they are. Then each is one sparse matrix for all columns, and four columns are done
// at once, or eight: a weight and its place are read once for them. Where fewer than four are left the last one stands in for
// those that are missing: it is written several times, with one value.

/** Where the table of a span begins in those of its trunk, and the columns of each row. */
export interface SpanTable {
  readonly base: number;
  readonly columns: number;
}

/** Eight columns, from `base` on. */
function eightUp(
  { states, rowStart, rowBelow }: RowPairs,
  ok: number,
  weights: Float64Array,
  columns: number,
  base: number,
  below: Float64Array,
  faulty: Float64Array,
  above: Float64Array,
): void {
  for (let s = 0; s < states; s++) {
    const end = rowStart[s + 1]!;
    let f0 = 0;
    let f1 = 0;
    let f2 = 0;
    let f3 = 0;
    let f4 = 0;
    let f5 = 0;
    let f6 = 0;
    let f7 = 0;
    for (let i = rowStart[s]!; i < end; i++) {
      const weight = weights[i]!;
      const from = base + rowBelow[i]! * columns;
      f0 += weight * below[from]!;
      f1 += weight * below[from + 1]!;
      f2 += weight * below[from + 2]!;
      f3 += weight * below[from + 3]!;
      f4 += weight * below[from + 4]!;
      f5 += weight * below[from + 5]!;
      f6 += weight * below[from + 6]!;
      f7 += weight * below[from + 7]!;
    }
    const row = base + s * columns;
    faulty[row] = f0 + ok * faulty[row]!;
    faulty[row + 1] = f1 + ok * faulty[row + 1]!;
    faulty[row + 2] = f2 + ok * faulty[row + 2]!;
    faulty[row + 3] = f3 + ok * faulty[row + 3]!;
    faulty[row + 4] = f4 + ok * faulty[row + 4]!;
    faulty[row + 5] = f5 + ok * faulty[row + 5]!;
    faulty[row + 6] = f6 + ok * faulty[row + 6]!;
    faulty[row + 7] = f7 + ok * faulty[row + 7]!;
    above[row] = f0 + ok * below[row]!;
    above[row + 1] = f1 + ok * below[row + 1]!;
    above[row + 2] = f2 + ok * below[row + 2]!;
    above[row + 3] = f3 + ok * below[row + 3]!;
    above[row + 4] = f4 + ok * below[row + 4]!;
    above[row + 5] = f5 + ok * below[row + 5]!;
    above[row + 6] = f6 + ok * below[row + 6]!;
    above[row + 7] = f7 + ok * below[row + 7]!;
  }
}

/**
 * One component, upward: `above` from `below`. `faulty` holds the share of `below` in which a component of the span below
 * this one is faulty, and gets that of `above` in which this one or, where it is good, one of those is.
 */
export function passUpPlain(
  pairs: RowPairs,
  ok: number,
  weights: Float64Array,
  { base, columns }: SpanTable,
  below: Float64Array,
  faulty: Float64Array,
  above: Float64Array,
): void {
  const { states, rowStart, rowBelow } = pairs;
  const last = columns - 1;
  let first = 0;
  for (; first + 8 <= columns; first += 8)
    eightUp(pairs, ok, weights, columns, base + first, below, faulty, above);
  for (; first < columns; first += 4) {
    const c0 = base + first;
    const c1 = base + Math.min(first + 1, last);
    const c2 = base + Math.min(first + 2, last);
    const c3 = base + Math.min(first + 3, last);
    for (let s = 0; s < states; s++) {
      const end = rowStart[s + 1]!;
      let f0 = 0;
      let f1 = 0;
      let f2 = 0;
      let f3 = 0;
      for (let i = rowStart[s]!; i < end; i++) {
        const weight = weights[i]!;
        const row = rowBelow[i]! * columns;
        f0 += weight * below[row + c0]!;
        f1 += weight * below[row + c1]!;
        f2 += weight * below[row + c2]!;
        f3 += weight * below[row + c3]!;
      }
      const row = s * columns;
      // All are read before one is written: columns that stand in for others are the same entries.
      const g0 = f0 + ok * faulty[row + c0]!;
      const g1 = f1 + ok * faulty[row + c1]!;
      const g2 = f2 + ok * faulty[row + c2]!;
      const g3 = f3 + ok * faulty[row + c3]!;
      faulty[row + c0] = g0;
      faulty[row + c1] = g1;
      faulty[row + c2] = g2;
      faulty[row + c3] = g3;
      above[row + c0] = f0 + ok * below[row + c0]!;
      above[row + c1] = f1 + ok * below[row + c1]!;
      above[row + c2] = f2 + ok * below[row + c2]!;
      above[row + c3] = f3 + ok * below[row + c3]!;
    }
  }
}

/**
 * The same downward, in the columns that are `live`: sets `downBelow` from `down`, and `scratch` to the mass that goes each pair's
 * way before its weight is multiplied in; answers the mass of the good component. `below` is the message that came up from
 * below it.
 */
export function passDownPlain(
  { states, columnStart, columnAbove, columnPair, scratch: travelled }: ColumnPairs,
  ok: number,
  weights: Float64Array,
  { base, columns }: SpanTable,
  live: Int32Array,
  down: Float64Array,
  downBelow: Float64Array,
  below: Float64Array,
): number {
  travelled.fill(0);
  let good = 0;
  for (let k = 0; k < live.length; k += 4) {
    // Columns that stand in for missing ones weigh nothing.
    const is1 = k + 1 < live.length ? 1 : 0;
    const is2 = k + 2 < live.length ? 1 : 0;
    const is3 = k + 3 < live.length ? 1 : 0;
    const c0 = live[k]!;
    const c1 = live[k + is1]!;
    const c2 = live[k + 2 * is2]!;
    const c3 = live[k + 3 * is3]!;
    for (let s = 0; s < states; s++) {
      const row = s * columns;
      const up0 = below[base + row + c0]!;
      const up1 = is1 * below[base + row + c1]!;
      const up2 = is2 * below[base + row + c2]!;
      const up3 = is3 * below[base + row + c3]!;
      let d0 = ok * down[row + c0]!;
      let d1 = ok * down[row + c1]!;
      let d2 = ok * down[row + c2]!;
      let d3 = ok * down[row + c3]!;
      good += d0 * up0 + d1 * up1 + d2 * up2 + d3 * up3;
      const end = columnStart[s + 1]!;
      for (let i = columnStart[s]!; i < end; i++) {
        const from = columnAbove[i]! * columns;
        const pair = columnPair[i]!;
        const weight = weights[pair]!;
        const a0 = down[from + c0]!;
        const a1 = down[from + c1]!;
        const a2 = down[from + c2]!;
        const a3 = down[from + c3]!;
        d0 += weight * a0;
        d1 += weight * a1;
        d2 += weight * a2;
        d3 += weight * a3;
        travelled[pair]! += a0 * up0 + a1 * up1 + a2 * up2 + a3 * up3;
      }
      downBelow[row + c0] = d0;
      downBelow[row + c1] = d1;
      downBelow[row + c2] = d2;
      downBelow[row + c3] = d3;
    }
  }
  return good;
}

/** Eight columns, without the posterior. */
function eightDown(
  { states, columnStart, columnAbove, columnPair }: ColumnPairs,
  ok: number,
  weights: Float64Array,
  columns: number,
  first: number,
  down: Float64Array,
  downBelow: Float64Array,
): void {
  for (let s = 0; s < states; s++) {
    const row = first + s * columns;
    let d0 = ok * down[row]!;
    let d1 = ok * down[row + 1]!;
    let d2 = ok * down[row + 2]!;
    let d3 = ok * down[row + 3]!;
    let d4 = ok * down[row + 4]!;
    let d5 = ok * down[row + 5]!;
    let d6 = ok * down[row + 6]!;
    let d7 = ok * down[row + 7]!;
    const end = columnStart[s + 1]!;
    for (let i = columnStart[s]!; i < end; i++) {
      const weight = weights[columnPair[i]!]!;
      const from = first + columnAbove[i]! * columns;
      d0 += weight * down[from]!;
      d1 += weight * down[from + 1]!;
      d2 += weight * down[from + 2]!;
      d3 += weight * down[from + 3]!;
      d4 += weight * down[from + 4]!;
      d5 += weight * down[from + 5]!;
      d6 += weight * down[from + 6]!;
      d7 += weight * down[from + 7]!;
    }
    downBelow[row] = d0;
    downBelow[row + 1] = d1;
    downBelow[row + 2] = d2;
    downBelow[row + 3] = d3;
    downBelow[row + 4] = d4;
    downBelow[row + 5] = d5;
    downBelow[row + 6] = d6;
    downBelow[row + 7] = d7;
  }
}

/** The same without the posterior. */
export function passDownOnly(
  pairs: ColumnPairs,
  ok: number,
  weights: Float64Array,
  { columns }: SpanTable,
  live: Int32Array,
  down: Float64Array,
  downBelow: Float64Array,
): void {
  const { states, columnStart, columnAbove, columnPair } = pairs;
  const last = live.length - 1;
  let k = 0;
  // Live columns ascend: eight of them are in a row where the last is seven after the first.
  for (; k + 8 <= live.length && live[k + 7]! === live[k]! + 7; k += 8)
    eightDown(pairs, ok, weights, columns, live[k]!, down, downBelow);
  for (; k < live.length; k += 4) {
    const c0 = live[k]!;
    const c1 = live[Math.min(k + 1, last)]!;
    const c2 = live[Math.min(k + 2, last)]!;
    const c3 = live[Math.min(k + 3, last)]!;
    for (let s = 0; s < states; s++) {
      const row = s * columns;
      let d0 = ok * down[row + c0]!;
      let d1 = ok * down[row + c1]!;
      let d2 = ok * down[row + c2]!;
      let d3 = ok * down[row + c3]!;
      const end = columnStart[s + 1]!;
      for (let i = columnStart[s]!; i < end; i++) {
        const from = columnAbove[i]! * columns;
        const weight = weights[columnPair[i]!]!;
        d0 += weight * down[from + c0]!;
        d1 += weight * down[from + c1]!;
        d2 += weight * down[from + c2]!;
        d3 += weight * down[from + c3]!;
      }
      downBelow[row + c0] = d0;
      downBelow[row + c1] = d1;
      downBelow[row + c2] = d2;
      downBelow[row + c3] = d3;
    }
  }
}
