import type { ComponentLabels } from '../readings/label-shape.js';
import type { EffectClasses } from './effect-classes.js';
import type { ColumnPairs, RowPairs } from './effect-pairs.js';
import { labelledMatrix, matrixWeights } from './labelled-matrix.js';
import type { SpanChances } from './span-chances.js';
import type { SpanSlot } from './trunk-tables.js';

/** A component that leaves scales as they are: between rows of a table, in so many columns. */
export interface ComponentMatrix {
  readonly pairs: RowPairs & ColumnPairs;
  readonly weights: Float64Array;
  readonly columns: number;
  /** By pair, its effect; null where those of several effects are one pair. */
  readonly effect: Uint8Array | null;
}

/** @param view the cores of which a short is seen, by state */
export function componentMatrix(
  classes: EffectClasses,
  view: Uint8Array,
  { columns, labels: count, contexts }: SpanSlot,
  chances: SpanChances,
  labels: ComponentLabels | null | undefined,
): ComponentMatrix {
  // Labels that stay are columns like others.
  if (!labels) return { pairs: classes.pairs, weights: chances.pairs, columns, effect: null };
  const pairs = labelledMatrix(classes, view, labels.shape, count);
  const weights = matrixWeights(pairs, chances, labels);
  return { pairs, weights, columns: contexts, effect: pairs.effect };
}
