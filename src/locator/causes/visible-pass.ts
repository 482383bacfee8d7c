/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { LiveColumns } from '../sweep/descend-span.js';
import { type MergedWays, mergedWays, weightsOf } from './merged-ways.js';
import { chanceOf, forColumns, type Passage } from './passages.js';
import type { VisibleWay } from './visible-ways.js';

/** By row of SeenRows and column. */
export type SeenTable = Float64Array;

/** The message of all worlds, and its part in which nothing of this span above held a short. */
interface SpanMessage {
  readonly all: SeenTable;
  readonly none: SeenTable;
}

interface Rows {
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly holds: Uint8Array;
}

const ROWS = new WeakMap<MergedWays<VisibleWay>, Rows>();

function rowsOf(merged: MergedWays<VisibleWay>): Rows {
  const known = ROWS.get(merged) ?? {
    from: Int32Array.from(merged.ways, ({ from }) => from),
    to: Int32Array.from(merged.ways, ({ to }) => to),
    holds: Uint8Array.from(merged.ways, ({ holds }) => Number(holds)),
  };
  ROWS.set(merged, known);
  return known;
}

/** 1 for the rows in which no world is: most of what could be seen is not. */
function emptyRows(table: SeenTable, columns: number, live: LiveColumns): Uint8Array {
  const isEmpty = new Uint8Array(table.length / columns);
  for (let row = 0; row < isEmpty.length; row++) {
    let most = 0;
    for (let k = 0; k < live.columns.length; k++)
      most = Math.max(most, table[row * columns + live.columns[k]!]!);
    isEmpty[row] = most === 0 ? 1 : 0;
  }
  return isEmpty;
}

/** Down through one component, from `above` to `below`; what it holds is added to held[heldAt + group]. */
export function throughComponent(
  passage: Passage,
  ways: readonly VisibleWay[],
  live: LiveColumns,
  above: SpanMessage,
  below: SpanMessage,
  { held, heldAt, groups }: { held: Float64Array; heldAt: number; groups: number },
): void {
  const { columns, below: up, base } = passage;
  const { all, none } = above;
  const { all: allBelow, none: noneBelow } = below;
  allBelow.fill(0);
  noneBelow.fill(0);
  const merged = mergedWays(ways);
  const weights = weightsOf(passage, merged);
  if (weights) {
    const { from: froms, to: tos, holds } = rowsOf(merged);
    const isEmpty = emptyRows(all, columns, live);
    for (let w = 0; w < weights.length; w++) {
      const chance = weights[w]!;
      const from = froms[w]! * columns;
      if (chance === 0 || isEmpty[froms[w]!]) continue;
      const to = tos[w]! * columns;
      const upAt = base + merged.below[w]! * columns;
      for (let k = 0; k < live.columns.length; k++) {
        const c = live.columns[k]!;
        const part = chance * none[from + c]!;
        if (to >= 0) allBelow[to + c]! += chance * all[from + c]!;
        if (holds[w]) held[heldAt + (c % groups)]! += part * up[upAt + c]!;
        else noneBelow[to + c]! += part;
      }
    }
    return;
  }
  for (const way of ways) {
    const chance = chanceOf(passage, way.effect);
    if (chance === 0) continue;
    const { holds } = way;
    const isSeenBelow = way.to >= 0;
    const from = way.from * columns;
    const to = way.to * columns;
    const upAt = base + way.below * columns;
    const pass = (a: number, b: number, weight: number) => {
      const whole = weight * all[from + a]!;
      if (whole === 0) return;
      if (isSeenBelow) allBelow[to + b]! += whole;
      const part = weight * none[from + a]!;
      if (holds) held[heldAt + (a % groups)]! += part * up[upAt + b]!;
      else noneBelow[to + b]! += part;
    };
    forColumns(passage, way, chance, live, pass);
  }
}

/** Two messages of a size, the same ones each time. */
export function scratchMessages(): (size: number) => readonly [SpanMessage, SpanMessage] {
  const known = new Map<number, readonly [SpanMessage, SpanMessage]>();
  const make = (size: number) => ({
    all: new Float64Array(size),
    none: new Float64Array(size),
  });
  return (size) => {
    const found = known.get(size) ?? [make(size), make(size)];
    known.set(size, found);
    return found;
  };
}
