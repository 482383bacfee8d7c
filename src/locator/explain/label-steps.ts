/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { Moves } from '../readings/label-space.js';
import type { TrunkModel } from '../sweep/trunk-model.js';
import type { SeriesPart } from './component-priors.js';
import { EFFECT_COUNT, feedThrough, inSeries, VIEW_COUNT, viewThrough } from './run-effects.js';
import { POINT_COUNT } from './run-posterior.js';
import type { RunGroup } from './run.js';

// On a trunk with continuity or loop readings a run does two things: it has an effect, as everywhere, and it changes the
// label (readings/label.ts). A step is what one component does to both.

/** What a component in one mode does; `moves` from labels below to labels above, null where they stay. */
interface StepWay {
  readonly effect: number;
  readonly chance: number;
  readonly moves: Moves | null;
}

export interface LabelStep {
  /** Position among the run's places; -1 of a junction box, which does nothing but end stretches. */
  readonly group: number;
  readonly labelsAbove: number;
  readonly labelsBelow: number;
  /** The good one first. */
  readonly ways: readonly StepWay[];
}

/** The steps of a run from the top down; to the bottom of its last span, or past the last station of an open one. */
export function labelSteps(
  { labels, effects: classes }: TrunkModel,
  nodes: readonly number[],
  open: boolean,
  groups: readonly RunGroup[],
): LabelStep[] {
  const steps: LabelStep[] = [];
  nodes.forEach((n, i) => {
    const { labels: count, ...moves } = labels!.spans[n]!;
    const span = groups.findIndex((group) => group.node === n && !group.isStation);
    [moves.junctionOut, moves.cable, moves.junctionIn].forEach((made, p) => {
      const part = groups[span]!.parts[p]!;
      const movesOf = (m: number) => made[classes.ofMode[part.modes[m]!]!] ?? null;
      steps.push({
        group: span,
        labelsAbove: count,
        labelsBelow: count,
        ways: waysOf(part, null, movesOf),
      });
    });
    if (!open && i === nodes.length - 1) return;
    const { keep, short, labels: below } = labels!.nodes[n]!;
    const station = groups.findIndex((group) => group.node === n && group.isStation);
    const part = groups[station]?.parts[0];
    steps.push({
      group: station,
      labelsAbove: count,
      labelsBelow: below,
      ways: part ? waysOf(part, keep, () => short) : [{ effect: 0, chance: 1, moves: keep }],
    });
  });
  return steps;
}

function waysOf(
  { ok, effects, chances }: SeriesPart,
  keep: Moves | null,
  movesOf: (m: number) => Moves | null,
): StepWay[] {
  return [
    { effect: 0, chance: ok, moves: keep },
    ...effects.map((effect, m) => ({ effect, chance: chances[m]!, moves: movesOf(m) })),
  ];
}

/** Visits (label above, label below, weight) of a map of labels. */
function eachMove(
  moves: Moves | null,
  labels: number,
  visit: (above: number, below: number, weight: number) => void,
): void {
  if (moves === null) for (let l = 0; l < labels; l++) visit(l, l, 1);
  else moves.weight.forEach((weight, m) => visit(moves.to[m]!, moves.from[m]!, weight));
}

/** By label above: P(effect of all steps) * weights, from one label below; at label * EFFECT_COUNT + effect. */
export function labelledEffects(steps: readonly LabelStep[], from: number): Float64Array {
  let below = new Float64Array((steps.at(-1)?.labelsBelow ?? 1) * EFFECT_COUNT);
  below[from * EFFECT_COUNT] = 1;
  for (const { labelsAbove, labelsBelow, ways } of [...steps].reverse()) {
    const above = new Float64Array(labelsAbove * EFFECT_COUNT);
    for (const { effect, chance, moves } of ways)
      eachMove(moves, labelsBelow, (to, label, weight) => {
        for (let e = 0; e < EFFECT_COUNT; e++) {
          const mass = below[label * EFFECT_COUNT + e]!;
          if (mass > 0) above[to * EFFECT_COUNT + inSeries(effect, e)]! += weight * chance * mass;
        }
      });
    below = above;
  }
  return below;
}

/** Adds up weight * mass above * mass below over all that one way connects. */
function connect(
  { effect, chance, moves }: StepWay,
  labels: number,
  feeds: readonly number[],
  visit: (above: number, below: number, weight: number) => void,
): void {
  eachMove(moves, labels, (to, from, weight) => {
    for (const feed of feeds) {
      const below = from * POINT_COUNT + feedThrough(effect, feed) * VIEW_COUNT;
      const above = to * POINT_COUNT + feed * VIEW_COUNT;
      for (let view = 0; view < VIEW_COUNT; view++)
        visit(above + viewThrough(effect, view), below + view, weight * chance);
    }
  });
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
  const last = steps.at(-1)!;
  const up = [new Float64Array(last.labelsBelow * POINT_COUNT)];
  up[0]![below] = 1;
  for (const { labelsAbove, labelsBelow, ways } of [...steps].reverse()) {
    const [next] = up;
    const table = new Float64Array(labelsAbove * POINT_COUNT);
    for (const way of ways)
      connect(way, labelsBelow, feeds, (to, from, weight) => (table[to]! += weight * next![from]!));
    up.unshift(table);
  }
  let down = above;
  let top = above;
  let good = 1;
  steps.forEach(({ group, labelsBelow, ways }, s) => {
    if (group !== steps[s - 1]?.group) [top, good] = [down, 1];
    const passed = new Float64Array(labelsBelow * POINT_COUNT);
    const under = up[s + 1]!;
    ways.forEach((way, w) => {
      connect(way, labelsBelow, feeds, (from, to, weight) => {
        passed[to]! += weight * down[from]!;
        if (w > 0 && group >= 0) faulty[group]! += good * weight * top[from]! * under[to]!;
      });
    });
    good *= ways[0]!.chance;
    down = passed;
  });
  return up[0]!.reduce((sum, mass, i) => sum + mass * above[i]!, 0);
}
