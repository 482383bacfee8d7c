/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { LabelStep, StepWay } from './label-steps.js';
import { EFFECT_COUNT, FEED_BELOW, VIEW_ABOVE, VIEW_COUNT } from './run-effects.js';
import { POINT_COUNT } from './run-posterior.js';

/** Masses at label * POINT_COUNT + point, and which labels have any. */
interface PointMasses {
  readonly at: Float64Array;
  readonly has: Uint8Array;
}

/** Tables of the call before, taken by turns: most of one stays empty, and making it costs more than what is done with it. */
const TABLES: PointMasses[] = [];
/** Kept from call to call, 6.5 MB at the most. */
const MOST_TABLES_KEPT = 100;
const MOST_LABELS_KEPT = 32;
let taken = 0;

/** Empty, of at least so many labels; good until all are emptied. */
function takeTable(labels: number): PointMasses {
  let table = TABLES[taken];
  if (!table || table.has.length < labels) {
    table = { at: new Float64Array(labels * POINT_COUNT), has: new Uint8Array(labels) };
    TABLES[taken] = table;
  }
  taken++;
  return table;
}

function emptyTables(): void {
  while (taken > 0) {
    const { at, has } = TABLES[--taken]!;
    for (let label = 0; label < has.length; label++)
      if (has[label] === 1) at.fill(0, label * POINT_COUNT, (label + 1) * POINT_COUNT);
    has.fill(0);
    if (taken >= MOST_TABLES_KEPT || has.length > MOST_LABELS_KEPT) TABLES.length = taken;
  }
}

/** Up through one component, over some feeds: adds to what is above what one way makes of what is below. */
function stepUp(
  { effect, chance, moves }: StepWay,
  labels: number,
  feeds: readonly number[],
  below: PointMasses,
  above: PointMasses,
): void {
  const count = moves ? moves.weight.length : labels;
  for (let m = 0; m < count; m++) {
    const from = moves ? moves.from[m]! : m;
    const to = moves ? moves.to[m]! : m;
    const share = moves ? chance * moves.weight[m]! : chance;
    if (share === 0 || below.has[from] === 0) continue;
    above.has[to] = 1;
    for (let f = 0; f < feeds.length; f++) {
      const low = from * POINT_COUNT + FEED_BELOW[feeds[f]! * EFFECT_COUNT + effect]! * VIEW_COUNT;
      const high = to * POINT_COUNT + feeds[f]! * VIEW_COUNT;
      for (let view = 0; view < VIEW_COUNT; view++) {
        const mass = below.at[low + view]!;
        if (mass > 0) above.at[high + VIEW_ABOVE[view * EFFECT_COUNT + effect]!]! += share * mass;
      }
    }
  }
}

/** Down through it likewise, to where something comes up from below. */
function stepDown(
  { effect, chance, moves }: StepWay,
  labels: number,
  feeds: readonly number[],
  above: Float64Array,
  up: PointMasses,
  below: PointMasses,
): void {
  const count = moves ? moves.weight.length : labels;
  for (let m = 0; m < count; m++) {
    const from = moves ? moves.from[m]! : m;
    const to = moves ? moves.to[m]! : m;
    const share = moves ? chance * moves.weight[m]! : chance;
    if (share === 0 || up.has[from] === 0) continue;
    below.has[from] = 1;
    for (let f = 0; f < feeds.length; f++) {
      const low = from * POINT_COUNT + FEED_BELOW[feeds[f]! * EFFECT_COUNT + effect]! * VIEW_COUNT;
      const high = to * POINT_COUNT + feeds[f]! * VIEW_COUNT;
      for (let view = 0; view < VIEW_COUNT; view++)
        if (up.at[low + view]! > 0)
          below.at[low + view]! += share * above[high + VIEW_ABOVE[view * EFFECT_COUNT + effect]!]!;
    }
  }
}

function dot({ at, has }: PointMasses, labels: number, other: Float64Array): number {
  let sum = 0;
  for (let label = 0; label < labels; label++) {
    if (has[label] === 0) continue;
    const end = (label + 1) * POINT_COUNT;
    for (let i = label * POINT_COUNT; i < end; i++) sum += at[i]! * other[i]!;
  }
  return sum;
}

/**
 * As runPosterior, with labels: adds to `faulty`, by place, the mass in which the place is faulty, and answers the whole.
 * @param feeds those that can be on the way
 * @param above weights at label * POINT_COUNT + point
 * @param below label and point in the same way
 */
export function addLabelledPosterior(
  steps: readonly LabelStep[],
  feeds: readonly number[],
  above: Float64Array,
  below: number,
  faulty: Float64Array,
): number {
  // Only where an error ended the call before are there any.
  emptyTables();
  // By step, what comes up from below it, and through its faults.
  const ups: PointMasses[] = [];
  const faults: PointMasses[] = [];
  let up = takeTable(steps.at(-1)!.labelsBelow);
  up.at[below] = 1;
  up.has[Math.floor(below / POINT_COUNT)] = 1;
  for (let step = steps.length - 1; step >= 0; step--) {
    const { labelsAbove, labelsBelow, ways } = steps[step]!;
    ups[step] = up;
    const broken = takeTable(labelsAbove);
    for (let w = 1; w < ways.length; w++) stepUp(ways[w]!, labelsBelow, feeds, up, broken);
    faults[step] = broken;
    const passed = takeTable(labelsAbove);
    copyRows(broken, labelsAbove, passed);
    stepUp(ways[0]!, labelsBelow, feeds, up, passed);
    up = passed;
  }
  let down = above;
  let top = above;
  let good = 1;
  steps.forEach(({ group, labelsAbove, labelsBelow, ways }, s) => {
    if (group !== steps[s - 1]?.group) [top, good] = [down, 1];
    if (group >= 0) faulty[group]! += good * dot(faults[s]!, labelsAbove, top);
    const passed = takeTable(labelsBelow);
    for (const way of ways) stepDown(way, labelsBelow, feeds, down, ups[s]!, passed);
    good *= ways[0]!.chance;
    down = passed.at;
  });
  const whole = dot(up, steps[0]!.labelsAbove, above);
  emptyTables();
  return whole;
}

/** Makes what is empty a copy. */
function copyRows({ at, has }: PointMasses, labels: number, copy: PointMasses): void {
  for (let label = 0; label < labels; label++) {
    if (has[label] === 0) continue;
    copy.has[label] = 1;
    copy.at.set(at.subarray(label * POINT_COUNT, (label + 1) * POINT_COUNT), label * POINT_COUNT);
  }
}
