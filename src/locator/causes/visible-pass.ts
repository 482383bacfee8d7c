/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { LiveColumns } from '../sweep/descend-span.js';
import { rowColumns, liveIn, type MergedWays, weighedWays } from './merged-ways.js';
import { chanceOf, forLabels, type Passage } from './passages.js';
import type { VisibleWay } from './visible-ways.js';

/** By row of SeenRows and column. */
export type SeenTable = Float64Array;

/** The message of all worlds, and its part in which nothing of this span above held a short. */
interface SpanMessage {
  readonly all: SeenTable;
  readonly none: SeenTable;
}

/** The ways by the row that they begin in: those of a row are order[start[row]] up to start[row + 1]. */
interface Rows {
  readonly start: Int32Array;
  readonly order: Int32Array;
  readonly to: Int32Array;
  readonly holds: Uint8Array;
}

/** By the list of the merged ways, which is the same for each component of a kind. */
const ROWS = new WeakMap<readonly VisibleWay[], Rows>();

function rowsOf(merged: MergedWays<VisibleWay>): Rows {
  const known = ROWS.get(merged.ways) ?? makeRows(merged);
  ROWS.set(merged.ways, known);
  return known;
}

function makeRows({ ways, labels }: MergedWays<VisibleWay>): Rows {
  const rowOf = (seenRow: number, own: Uint16Array | undefined, w: number) =>
    labels ? seenRow * labels.count + own![w]! : seenRow;
  const froms = ways.map(({ from }, w) => rowOf(from, labels?.up, w));
  const order = [...ways.keys()].sort((a, b) => froms[a]! - froms[b]! || a - b);
  const rows = froms.reduce((most, from) => Math.max(most, from + 1), 0);
  const start = new Int32Array(rows + 1);
  for (const from of froms) start[from + 1]!++;
  for (let row = 0; row < rows; row++) start[row + 1]! += start[row]!;
  return {
    start,
    order: Int32Array.from(order),
    to: Int32Array.from(ways, ({ to }, w) => (to < 0 ? -1 : rowOf(to, labels?.low, w))),
    holds: Uint8Array.from(ways, ({ holds }) => Number(holds)),
  };
}

/** Whether no world is in a row: most of what could be seen is not. */
function isEmptyRow(table: SeenTable, from: number, live: Int32Array): boolean {
  for (let k = 0; k < live.length; k++) if (table[from + live[k]!]! > 0) return false;
  return true;
}

/** Where what a component holds is added. */
interface Held {
  readonly held: Float64Array;
  readonly heldAt: number;
  readonly groups: number;
}

/** Down through one component, from `above` to `below`; what it holds is added to held[heldAt + group]. */
export function throughComponent(
  passage: Passage,
  ways: readonly VisibleWay[],
  live: LiveColumns,
  above: SpanMessage,
  below: SpanMessage,
  { held, heldAt, groups }: Held,
): void {
  const { all, none } = above;
  const { all: allBelow, none: noneBelow } = below;
  allBelow.fill(0);
  noneBelow.fill(0);
  const merged = weighedWays(passage, ways);
  if (merged) {
    const { below: up, base } = passage;
    const { weights } = merged;
    const columns = rowColumns(merged, passage);
    const { start, order, to: tos, holds } = rowsOf(merged);
    const visited = liveIn(merged, live);
    for (let row = 0; row + 1 < start.length; row++) {
      const from = row * columns;
      if (isEmptyRow(all, from, visited)) continue;
      for (let i = start[row]!; i < start[row + 1]!; i++) {
        const w = order[i]!;
        const chance = weights[w]!;
        if (chance === 0) continue;
        const to = tos[w]! * columns;
        const upAt = base + merged.below[w]! * columns;
        const isHeld = holds[w] === 1;
        for (let k = 0; k < visited.length; k++) {
          const c = visited[k]!;
          const part = chance * none[from + c]!;
          if (to >= 0) allBelow[to + c]! += chance * all[from + c]!;
          if (isHeld) held[heldAt + (c % groups)]! += part * up[upAt + c]!;
          else noneBelow[to + c]! += part;
        }
      }
    }
  } else throughScales(passage, ways, live, above, below, { held, heldAt, groups });
}

/** The same where scales change on the way. */
function throughScales(
  passage: Passage,
  ways: readonly VisibleWay[],
  live: LiveColumns,
  { all, none }: SpanMessage,
  { all: allBelow, none: noneBelow }: SpanMessage,
  { held, heldAt, groups }: Held,
): void {
  const { below: up, base, columns } = passage;
  for (const way of ways) {
    const chance = chanceOf(passage, way.effect);
    if (chance === 0) continue;
    const { holds } = way;
    const isSeenBelow = way.to >= 0;
    const from = way.from * columns;
    const to = way.to * columns;
    const upAt = base + way.below * columns;
    forLabels(passage, way, chance, live, (above, under, shares) => {
      for (let k = 0; k < live.contexts.length; k++) {
        const c = live.contexts[k]!;
        const whole = shares[c]! * all[from + above + c]!;
        if (whole === 0) continue;
        if (isSeenBelow) allBelow[to + under + c]! += whole;
        const part = shares[c]! * none[from + above + c]!;
        if (holds) held[heldAt + (c % groups)]! += part * up[upAt + under + c]!;
        else noneBelow[to + under + c]! += part;
      }
    });
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
