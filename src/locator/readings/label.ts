import { type CoreSet, RETURN } from '../../plan/cores.js';
import type { SpanEffect } from '../../plan/modes.js';

// What continuity and loop readings need to know of everything below a point is its *label*: for each stretch asked
// about for continuity whether it is broken below (0 or 1), and for each core whose loop was read which short of it is
// the nearest one seen: none (0), one of group g (1 + 2g), or the same weighted by its excess (2 + 2g). The mass of
// shorted trunks is so carried twice, plain and weighted: a nearer short found further up takes the plain mass, gives it
// its own weight, and leaves the weighted mass behind. On a trunk in a row, where no branches meet, shorts seen are never
// compared: none and plain are one value (0) there, which fares alike whatever is met further up, and there is one group.

export type Label = readonly number[];

export const NONE = 0;
export const plainOf = (group: number) => 1 + 2 * group;
export const weightedOf = (group: number) => 2 + 2 * group;
const isWeighted = (value: number) => value > 0 && value % 2 === 0;
const groupIn = (value: number) => (value - 1) >> 1;

/** Values are small: each is one character. */
export const keyOf = (label: Label) => String.fromCharCode(...label);

/** A label that some mass goes to, and the weight that it takes on. */
export interface LabelOutcome {
  readonly label: Label;
  readonly weight: number;
}

/** The same above a component: its weight is the product of the excesses of these loops, as bits. */
export interface LabelAbove {
  readonly label: Label;
  readonly excesses: number;
}

/** What a short does to the value of its core's loop; nothing is left of a weighted one. A group of null: on a trunk in a row. */
export function valuesAfterShort(
  value: number,
  group: number | null,
  excess: number,
): { value: number; weight: number }[] {
  if (isWeighted(value)) return [];
  const plain = { value: group === null ? NONE : plainOf(group), weight: 1 };
  return excess > 0 ? [plain, { value: weightedOf(group ?? 0), weight: excess }] : [plain];
}

/** What an open does to it: no short is seen beyond. */
function valuesAfterOpen(value: number): { value: number }[] {
  return isWeighted(value) ? [] : [{ value: NONE }];
}

/** What a component is to readings: which stretches it is on, and which short of each core it would be. */
export interface LabelledComponent {
  /** Cores asked about, by stretch; 0 where the component is not on it. */
  readonly asked: readonly CoreSet[];
  readonly loops: readonly { core: CoreSet; group: number | null; excess: number }[];
}

/** Whether an effect leaves every label as it is. */
export function leavesLabels(effect: SpanEffect, { asked, loops }: LabelledComponent): boolean {
  if (asked.some((cores) => cores & effect.removes)) return false;
  return !loops.some(({ core }) => (core | RETURN) & effect.removes || core & effect.shorts);
}

/** Above a component with this effect. What an excess is does not matter here, only whether there is one. */
export function labelsAbove(
  effect: SpanEffect,
  { asked, loops }: LabelledComponent,
  label: Label,
): LabelAbove[] {
  const above = [...label];
  asked.forEach((cores, b) => {
    if (cores & effect.removes) above[b] = 1;
  });
  let outcomes: LabelAbove[] = [{ label: above, excesses: 0 }];
  loops.forEach(({ core, group, excess }, l) => {
    const isShorted = (core & effect.shorts) !== 0;
    if (!isShorted && !((core | RETURN) & effect.removes)) return;
    const d = asked.length + l;
    const value = label[d] ?? NONE;
    const values = isShorted ? valuesAfterShort(value, group, excess) : valuesAfterOpen(value);
    outcomes = outcomes.flatMap((outcome) =>
      values.map((next) => ({
        label: outcome.label.with(d, next.value),
        excesses: outcome.excesses | (isWeighted(next.value) ? 1 << l : 0),
      })),
    );
  });
  return outcomes;
}

/** The nearest short seen over two branches decides; of equally near ones each counts half. */
function nearest(left: number, right: number): { value: number; share: number } | undefined {
  if (left === NONE) return { value: right, share: 1 };
  if (right === NONE) return { value: left, share: 1 };
  const [isLeft, isRight] = [isWeighted(left), isWeighted(right)];
  if (isLeft && isRight) return undefined;
  if (!isLeft && !isRight) return { value: Math.min(left, right), share: 1 };
  const [weighed, other] = isLeft ? [left, right] : [right, left];
  if (groupIn(weighed) > groupIn(other)) return undefined;
  return { value: weighed, share: groupIn(weighed) < groupIn(other) ? 1 : 0.5 };
}

/** The label of two branches together; undefined where their product is no term of it. */
export function joinLabels(stretches: number, left: Label, right: Label): LabelOutcome | undefined {
  const label: number[] = [];
  let weight = 1;
  for (let d = 0; d < left.length; d++) {
    const [a = 0, b = 0] = [left[d], right[d]];
    const joined = d < stretches ? { value: Math.max(a, b), share: 1 } : nearest(a, b);
    if (joined === undefined) return undefined;
    label.push(joined.value);
    weight *= joined.share;
  }
  return { label, weight };
}

/** With the groups of the loops named anew. */
export function regroup(
  stretches: number,
  label: Label,
  groupOf: (loop: number, group: number) => number,
): number[] {
  return label.map((value, d) => {
    if (d < stretches || value === NONE) return value;
    const group = groupOf(d - stretches, groupIn(value));
    return isWeighted(value) ? weightedOf(group) : plainOf(group);
  });
}

/** A core whose loop was read, on a trunk in a row or not. */
export interface LabelledLoop {
  readonly core: CoreSet;
  readonly isInRow: boolean;
}

/** Of the cores whose loops were read, those of which a short has to be seen where a label is, and those of which none may be. */
export function coresSeen(
  stretches: number,
  label: Label,
  loops: readonly LabelledLoop[],
): { seen: CoreSet; unseen: CoreSet } {
  let [seen, unseen] = [0, 0];
  loops.forEach(({ core, isInRow }, l) => {
    if ((label[stretches + l] ?? NONE) !== NONE) seen |= core;
    else if (!isInRow) unseen |= core;
  });
  return { seen, unseen };
}
