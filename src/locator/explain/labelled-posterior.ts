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

function emptyMasses(labels: number): PointMasses {
  return { at: new Float64Array(labels * POINT_COUNT), has: new Uint8Array(labels) };
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
    const [from, to] = moves ? [moves.from[m]!, moves.to[m]!] : [m, m];
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
  below: Float64Array,
): void {
  const count = moves ? moves.weight.length : labels;
  for (let m = 0; m < count; m++) {
    const [from, to] = moves ? [moves.from[m]!, moves.to[m]!] : [m, m];
    const share = moves ? chance * moves.weight[m]! : chance;
    if (share === 0 || up.has[from] === 0) continue;
    for (let f = 0; f < feeds.length; f++) {
      const low = from * POINT_COUNT + FEED_BELOW[feeds[f]! * EFFECT_COUNT + effect]! * VIEW_COUNT;
      const high = to * POINT_COUNT + feeds[f]! * VIEW_COUNT;
      for (let view = 0; view < VIEW_COUNT; view++)
        if (up.at[low + view]! > 0)
          below[low + view]! += share * above[high + VIEW_ABOVE[view * EFFECT_COUNT + effect]!]!;
    }
  }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
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
  // By step, what comes up from below it, and through its faults.
  const ups: PointMasses[] = [];
  const faults: Float64Array[] = [];
  let up = emptyMasses(steps.at(-1)!.labelsBelow);
  up.at[below] = 1;
  up.has[Math.floor(below / POINT_COUNT)] = 1;
  for (let step = steps.length - 1; step >= 0; step--) {
    const { labelsAbove, labelsBelow, ways } = steps[step]!;
    ups[step] = up;
    const passed = emptyMasses(labelsAbove);
    for (let w = 1; w < ways.length; w++) stepUp(ways[w]!, labelsBelow, feeds, up, passed);
    faults[step] = passed.at.slice();
    stepUp(ways[0]!, labelsBelow, feeds, up, passed);
    up = passed;
  }
  let down = above;
  let top = above;
  let good = 1;
  steps.forEach(({ group, labelsBelow, ways }, s) => {
    if (group !== steps[s - 1]?.group) [top, good] = [down, 1];
    if (group >= 0) faulty[group]! += good * dot(top, faults[s]!);
    const passed = new Float64Array(labelsBelow * POINT_COUNT);
    for (const way of ways) stepDown(way, labelsBelow, feeds, down, ups[s]!, passed);
    good *= ways[0]!.chance;
    down = passed;
  });
  return dot(up.at, above);
}
