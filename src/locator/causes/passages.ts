/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { CoreSet } from '../../plan/cores.js';
import type { Moves } from '../readings/label-space.js';
import type { LiveColumns } from '../sweep/descend-span.js';
import type { Ratios } from '../sweep/scale.js';
import type { SpanChances } from '../sweep/span-chances.js';
import type { EffectClasses } from '../sweep/effect-classes.js';
import type { UpwardSweep } from '../sweep/sweep-trunk.js';

/** One component of a span, between the tables above and below it. */
export interface Passage {
  readonly chances: SpanChances;
  readonly moves: readonly (Moves | null)[] | undefined;
  readonly ratio: Ratios;
  /** The upward message from below it, which begins at `base`. */
  readonly below: Float64Array;
  readonly base: number;
  readonly columns: number;
  readonly contexts: number;
}

/** The three components of the span into a node, from the top down. */
export function passagesInto({ model, tables, ratios }: UpwardSweep, n: number): Passage[] {
  const span = tables.spans[n]!;
  const labels = model.labels?.spans[n];
  const { up, inward } = ratios[n]!;
  const { columns, contexts } = span;
  const base = span.at * model.space.count;
  const make = (
    chances: SpanChances,
    moves: Passage['moves'],
    ratio: Ratios,
    below: Float64Array,
  ): Passage => ({ chances, moves, ratio, below, base, columns, contexts });
  return [
    make(model.junctionOut[n]!, labels?.junctionOut, up, tables.aboveCable),
    make(model.cable[n]!, labels?.cable, up, tables.aboveJunctionIn),
    make(model.junctionIn[n]!, labels?.junctionIn, inward, tables.bottom),
  ];
}

/** One way through a component: an effect and the states above and below it. `ok` is the effect after the last. */
export interface Way {
  readonly effect: number;
  readonly above: number;
  readonly below: number;
  /** feedAbove * feeds + feedBelow. */
  readonly ratioCell: number;
  readonly removes: CoreSet;
  readonly shorts: CoreSet;
  readonly weakens: boolean;
}

const WAYS = new WeakMap<EffectClasses, readonly Way[]>();

/** Every way through a component, those of one effect together. */
export function waysThrough(classes: EffectClasses): readonly Way[] {
  const known = WAYS.get(classes);
  if (known) return known;
  const ways: Way[] = [];
  for (const [block, effect] of classes.blockEffect.entries())
    for (let i = classes.start[block]!; i < classes.start[block + 1]!; i++)
      ways.push({
        effect,
        above: classes.above[i]!,
        below: classes.below[i]!,
        ratioCell: classes.ratioCell[block]!,
        ...classes.does[effect]!,
      });
  for (let s = 0; s < classes.feed.length; s++)
    ways.push({
      effect: classes.count,
      above: s,
      below: s,
      ratioCell: classes.feed[s]! * (classes.feeds + 1),
      removes: 0,
      shorts: 0,
      weakens: false,
    });
  WAYS.set(classes, ways);
  return ways;
}

export function chanceOf({ chances: { ok, effects } }: Passage, effect: number): number {
  return effect === effects.length ? ok : effects[effect]!;
}

/**
 * Calls `visit` with every column above and below that a way leads between, and its weight there: the chance of the
 * effect, what becomes of the labels, the change of scale. Columns are places in a row of one state.
 */
export function forColumns(
  { moves, ratio, contexts }: Passage,
  { effect, ratioCell }: Way,
  chance: number,
  live: LiveColumns,
  visit: (above: number, below: number, weight: number) => void,
): void {
  const moved = moves?.[effect];
  const cell = ratioCell * contexts;
  if (!moved) {
    for (const c of live.columns)
      visit(c, c, ratio === null ? chance : chance * ratio[cell + (c % contexts)]!);
    return;
  }
  for (let m = 0; m < moved.weight.length; m++)
    for (const c of live.contexts) {
      const weight = chance * moved.weight[m]! * (ratio === null ? 1 : ratio[cell + c]!);
      visit(moved.to[m]! * contexts + c, moved.from[m]! * contexts + c, weight);
    }
}
