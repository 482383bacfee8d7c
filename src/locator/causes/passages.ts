/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { CoreSet } from '../../plan/cores.js';
import type { ComponentLabels } from '../readings/label-shape.js';
import type { LiveColumns } from '../sweep/descend-span.js';
import { ReusedTable } from '../numbers/zero-table.js';
import type { Ratios } from '../sweep/scale.js';
import type { SpanChances } from '../sweep/span-chances.js';
import type { EffectClasses } from '../sweep/effect-classes.js';
import type { UpwardSweep } from '../sweep/sweep-trunk.js';

/** One component of a span, between the tables above and below it. */
export interface Passage {
  readonly chances: SpanChances;
  readonly component: ComponentLabels | null;
  readonly ratio: Ratios;
  /** The upward message from below it, which begins at `base`. */
  readonly below: Float64Array;
  readonly base: number;
  readonly columns: number;
  readonly labels: number;
  readonly contexts: number;
  /** The cores of which a short is seen, by state. */
  readonly view: Uint8Array;
}

/** The three components of the span into a node, from the top down. */
export function passagesInto({ model, tables, ratios }: UpwardSweep, n: number): Passage[] {
  const span = tables.spans[n]!;
  const labels = model.labels?.spans[n];
  const { up, inward } = ratios[n]!;
  const { columns, labels: labelCount, contexts } = span;
  const base = span.at * model.space.count;
  const make = (
    chances: SpanChances,
    component: ComponentLabels | null = null,
    ratio: Ratios,
    below: Float64Array,
  ): Passage => {
    return {
      chances,
      component,
      ratio,
      below,
      base,
      columns,
      labels: labelCount,
      contexts,
      view: model.space.view,
    };
  };
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

/** Where forLabels tells what each context weighs. */
const WEIGHTS = new ReusedTable();

/** Places in a row of one state above and below at which a label begins, and what each of its contexts weighs. */
type VisitLabel = (above: number, below: number, weights: Float64Array) => void;

/**
 * Calls `visit` with every label above and below that a way leads between. The weight of each live context is the chance of
 * the effect, what becomes of the label, the change of scale; it stands there until the next call.
 */
export function forLabels(
  { component, ratio, contexts, labels }: Passage,
  { effect, ratioCell }: Way,
  chance: number,
  live: LiveColumns,
  visit: VisitLabel,
): void {
  const weights = WEIGHTS.of(contexts);
  const moved = component?.moves[effect];
  const cell = ratioCell * contexts;
  const count = moved ? moved.weight.length : labels;
  for (let m = 0; m < count; m++) {
    const share = moved ? chance * moved.weight[m]! : chance;
    for (let k = 0; k < live.contexts.length; k++) {
      const c = live.contexts[k]!;
      weights[c] = ratio === null ? share : share * ratio[cell + c]!;
    }
    visit((moved ? moved.to[m]! : m) * contexts, (moved ? moved.from[m]! : m) * contexts, weights);
  }
}
