/* eslint-disable @typescript-eslint/no-non-null-assertion -- loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { ComponentLabels, LabelShape } from '../readings/label-shape.js';
import type { LiveColumns } from '../sweep/descend-span.js';
import { addWeights, labelledWays } from '../sweep/labelled-matrix.js';
import type { SpanChances } from '../sweep/span-chances.js';
import type { Passage, Way } from './passages.js';
import { zeroTable } from '../numbers/zero-table.js';

/**
 * Ways through a component that leaves scales as they are, as one sparse matrix: those that lead from one row above to one row
 * below are one, whatever the effect. Where the component changes labels, rows are of a state and a label.
 */
export interface MergedWays<W extends Way> {
  /** One way of each. */
  readonly ways: readonly W[];
  readonly above: Uint32Array;
  readonly below: Uint32Array;
  /** The labels above and below of each, of so many; null where labels are columns. */
  readonly labels: LabelsOfWays | null;
}

interface LabelsOfWays {
  readonly count: number;
  readonly up: Uint16Array;
  readonly low: Uint16Array;
}

interface Merged<W extends Way> extends MergedWays<W> {
  weigh: (chances: SpanChances, component: ComponentLabels | null) => Float64Array;
}

const MERGED = new WeakMap<readonly Way[], Merged<Way>>();
const LABELLED = new WeakMap<readonly Way[], WeakMap<LabelShape, Map<number, Merged<Way>>>>();

/** @param ways the same list each time: what is made of it is remembered */
function mergedWays<W extends Way>(ways: readonly W[], passage: Passage): Merged<W> {
  const { component } = passage;
  if (component) return labelledOf(ways, component.shape, passage);
  const known = (MERGED.get(ways) as Merged<W> | undefined) ?? merge(ways);
  MERGED.set(ways, known);
  return known;
}

function labelledOf<W extends Way>(
  ways: readonly W[],
  shape: LabelShape,
  { labels, view }: Passage,
): Merged<W> {
  const ofWays = LABELLED.get(ways) ?? new WeakMap<LabelShape, Map<number, Merged<Way>>>();
  LABELLED.set(ways, ofWays);
  const ofShape = ofWays.get(shape) ?? new Map<number, Merged<Way>>();
  ofWays.set(shape, ofShape);
  const known = (ofShape.get(labels) as Merged<W> | undefined) ?? label(ways, shape, view, labels);
  ofShape.set(labels, known);
  return known;
}

function merge<W extends Way>(ways: readonly W[]): Merged<W> {
  const keys = ways.map((way) =>
    'from' in way
      ? JSON.stringify([way.above, way.below, way.from, 'to' in way && way.to, way.shorts])
      : `${way.above} ${way.below}`,
  );
  const distinct = new Map<string, number>();
  const first: W[] = [];
  keys.forEach((key, w) => {
    if (!distinct.has(key)) distinct.set(key, first.push(ways[w]!) - 1);
  });
  const of = Uint32Array.from(keys, (key) => distinct.get(key)!);
  const effect = Uint8Array.from(ways, (way) => way.effect);
  return {
    ways: first,
    above: Uint32Array.from(first, ({ above }) => above),
    below: Uint32Array.from(first, ({ below }) => below),
    labels: null,
    weigh: ({ ok, effects }) => {
      const weights = zeroTable(first.length);
      for (let i = 0; i < of.length; i++)
        weights[of[i]!]! += effect[i]! === effects.length ? ok : effects[effect[i]!]!;
      return weights;
    },
  };
}

function label<W extends Way>(
  ways: readonly W[],
  shape: LabelShape,
  view: Uint8Array,
  count: number,
): Merged<W> {
  const effect = Uint8Array.from(ways, (way) => way.effect);
  const above = Uint16Array.from(ways, (way) => way.above);
  const below = Uint16Array.from(ways, (way) => way.below);
  const labelled = labelledWays({ effect, above, below }, shape, view);
  const { of, up, low } = labelled;
  const each = Uint32Array.from(of, (_, w) => w);
  return {
    ways: Array.from(of, (w) => ways[w]!),
    above: Uint32Array.from(of, (way, w) => above[way]! * count + up[w]!),
    below: Uint32Array.from(of, (way, w) => below[way]! * count + low[w]!),
    labels: { count, up, low },
    weigh: (chances, component) => {
      const weights = zeroTable(of.length);
      addWeights(labelled, effect, chances, component!.moves, each, weights);
      return weights;
    },
  };
}

/** Ways through one component, with their chances. */
export interface WeighedWays<W extends Way> extends MergedWays<W> {
  readonly weights: Float64Array;
}

/** And by the labels of a state, which are told apart in its rows; 0 where labels stay. */
type ByWays = Map<readonly Way[], (WeighedWays<Way> | undefined)[]>;

const PLAIN = new WeakMap<SpanChances, ByWays>();
const MOVED = new WeakMap<ComponentLabels, WeakMap<SpanChances, ByWays>>();

function weighedBefore({ chances, component }: Passage): ByWays {
  let of: WeakMap<SpanChances, ByWays> = PLAIN;
  if (component) {
    of = MOVED.get(component) ?? new WeakMap<SpanChances, ByWays>();
    MOVED.set(component, of);
  }
  const known = of.get(chances) ?? new Map<readonly Way[], (WeighedWays<Way> | undefined)[]>();
  of.set(chances, known);
  return known;
}

/** The merged ways with the chance of each; null where scales change on the way. */
export function weighedWays<W extends Way>(
  passage: Passage,
  ways: readonly W[],
): WeighedWays<W> | null {
  if (passage.ratio !== null) return null;
  const { chances, component, labels } = passage;
  const before = weighedBefore(passage);
  const ofWays = before.get(ways) ?? [];
  const known = ofWays[component ? labels : 0] as WeighedWays<W> | undefined;
  if (known) return known;
  const merged = mergedWays(ways, passage);
  const { ways: first, above, below, labels: own } = merged;
  const made = {
    ways: first,
    above,
    below,
    labels: own,
    weights: merged.weigh(chances, component),
  };
  ofWays[component ? labels : 0] = made;
  before.set(ways, ofWays);
  return made;
}

/** Of each row of such ways. */
export function rowColumns({ labels }: MergedWays<Way>, { columns, contexts }: Passage): number {
  return labels ? contexts : columns;
}

/** The columns of such a row that have to be visited. */
export function liveIn({ labels }: MergedWays<Way>, live: LiveColumns): Int32Array {
  return labels ? live.contexts : live.columns;
}
