/* eslint-disable @typescript-eslint/no-non-null-assertion -- loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { type ComponentLabels, goesWith, type LabelShape } from '../readings/label-shape.js';
import type { EffectClasses } from './effect-classes.js';
import type { ColumnPairs, RowPairs } from './effect-pairs.js';
import type { SpanChances } from './span-chances.js';

// A component that changes labels is one sparse matrix too, between rows of a state and a label: row s * labels + l, in
// columns of contexts. It holds only what can be: the shorts that a label tells of are those that its state sees.

/** Ways from a state above to one below by an effect; an effect after the last is none. */
export interface StateWays {
  readonly effect: ArrayLike<number>;
  readonly above: ArrayLike<number>;
  readonly below: ArrayLike<number>;
}

/** What labels make of such ways: which of them, the labels above and below, and which of its effect's moves (-1: labels stay). */
export interface LabelledWays {
  readonly of: Uint32Array;
  readonly up: Uint16Array;
  readonly low: Uint16Array;
  readonly move: Int32Array;
}

/** @param view the cores of which a short is seen, by state */
export function labelledWays(
  { effect, above, below }: StateWays,
  shape: LabelShape,
  view: Uint8Array,
): LabelledWays {
  const [of, up, low, move]: [number[], number[], number[], number[]] = [[], [], [], []];
  const add = (way: number, labelAbove: number, labelBelow: number, m: number) => {
    of.push(way);
    up.push(labelAbove);
    low.push(labelBelow);
    move.push(m);
  };
  const { labels, links } = shape;
  for (let way = 0; way < effect.length; way++) {
    const seenAbove = view[above[way]!]!;
    const seenBelow = view[below[way]!]!;
    const link = links[effect[way]!];
    if (link)
      for (let m = 0; m < link.from.length; m++) {
        const [to, from] = [link.to[m]!, link.from[m]!];
        if (goesWith(shape, from, seenBelow) && goesWith(shape, to, seenAbove))
          add(way, to, from, m);
      }
    else
      for (let l = 0; l < labels; l++)
        if (goesWith(shape, l, seenBelow) && goesWith(shape, l, seenAbove)) add(way, l, l, -1);
  }
  return {
    of: Uint32Array.from(of),
    up: Uint16Array.from(up),
    low: Uint16Array.from(low),
    move: Int32Array.from(move),
  };
}

/** Adds the chance of each labelled way to `weights`, at the place that `at` says. */
export function addWeights(
  { of, move }: LabelledWays,
  effect: ArrayLike<number>,
  { ok, effects }: SpanChances,
  moves: ComponentLabels['moves'],
  at: ArrayLike<number>,
  weights: Float64Array,
): void {
  for (let w = 0; w < of.length; w++) {
    const e = effect[of[w]!]!;
    const chance = e === effects.length ? ok : effects[e]!;
    weights[at[w]!]! += move[w]! < 0 ? chance : chance * moves[e]!.weight[move[w]!]!;
  }
}

/** The matrix of all effects, without what a good component does. */
export interface LabelledMatrix extends RowPairs, ColumnPairs {
  /** The effect of each entry. */
  readonly effect: Uint8Array;
  readonly ways: LabelledWays;
  readonly effectOfWay: Uint8Array;
  /** By labelled way, its entry. */
  readonly entry: Uint32Array;
}

const MATRICES = new WeakMap<LabelShape, Map<number, LabelledMatrix>>();

/** @param labels of the span, all rows of a state */
export function labelledMatrix(
  classes: EffectClasses,
  view: Uint8Array,
  shape: LabelShape,
  labels: number,
): LabelledMatrix {
  const ofShape = MATRICES.get(shape) ?? new Map<number, LabelledMatrix>();
  MATRICES.set(shape, ofShape);
  const known = ofShape.get(labels) ?? makeMatrix(classes, view, shape, labels);
  ofShape.set(labels, known);
  return known;
}

function makeMatrix(
  { above, below, effectStart, count }: EffectClasses,
  view: Uint8Array,
  shape: LabelShape,
  labels: number,
): LabelledMatrix {
  const effectOfWay = new Uint8Array(above.length);
  for (let e = 0; e < count; e++) effectOfWay.fill(e, effectStart[e], effectStart[e + 1]);
  const ways = labelledWays({ effect: effectOfWay, above, below }, shape, view);
  const states = view.length * labels;
  const size = ways.of.length;
  const rowOf =
    ways.up.length === 0 ? [] : Array.from(ways.of, (w, i) => above[w]! * labels + ways.up[i]!);
  const columnOf = Array.from(ways.of, (w, i) => below[w]! * labels + ways.low[i]!);
  const rows = sortedBy(rowOf, states);
  const entry = new Uint32Array(size);
  rows.order.forEach((way, i) => (entry[way] = i));
  const rowBelow = Uint32Array.from(rows.order, (way) => columnOf[way]!);
  const columns = sortedBy(rowBelow, states);
  return {
    states,
    rowStart: rows.start,
    rowBelow,
    columnStart: columns.start,
    columnAbove: Uint32Array.from(columns.order, (i) => rowOf[rows.order[i]!]!),
    columnPair: columns.order,
    scratch: new Float64Array(size),
    effect: Uint8Array.from(rows.order, (way) => effectOfWay[ways.of[way]!]!),
    ways,
    effectOfWay,
    entry,
  };
}

/** Positions by what they are of, and where those of each begin. */
function sortedBy(
  of: ArrayLike<number>,
  count: number,
): { start: Uint32Array; order: Uint32Array } {
  const start = new Uint32Array(count + 1);
  for (let i = 0; i < of.length; i++) start[of[i]! + 1]!++;
  for (let k = 0; k < count; k++) start[k + 1]! += start[k]!;
  const next = start.slice();
  const order = new Uint32Array(of.length);
  for (let i = 0; i < of.length; i++) order[next[of[i]!]!++] = i;
  return { start, order };
}

const WEIGHTS = new WeakMap<SpanChances, WeakMap<ComponentLabels, Float64Array>>();

/** What each entry weighs in one component. */
export function matrixWeights(
  { ways, effectOfWay, entry }: LabelledMatrix,
  chances: SpanChances,
  component: ComponentLabels,
): Float64Array {
  const ofChances = WEIGHTS.get(chances) ?? new WeakMap<ComponentLabels, Float64Array>();
  WEIGHTS.set(chances, ofChances);
  const known = ofChances.get(component);
  if (known) return known;
  const weights = new Float64Array(entry.length);
  addWeights(ways, effectOfWay, chances, component.moves, entry, weights);
  ofChances.set(component, weights);
  return weights;
}
