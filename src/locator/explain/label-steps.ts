/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { Moves } from '../readings/label-space.js';
import { MAX_LABELS } from '../request/limits.js';
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
  /** What they do to labels, each once, with the chances of all that do it. */
  readonly chances: ReadonlyMap<Moves | null, number>;
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
      const movesOf = (m: number) => made?.moves[classes.ofMode[part.modes[m]!]!] ?? null;
      const ways = waysOf(part, null, movesOf);
      steps.push({
        group: span,
        labelsAbove: count,
        labelsBelow: count,
        ways,
        chances: chancesByMoves(ways),
      });
    });
    if (!open && i === nodes.length - 1) return;
    const { keep, short, labels: below } = labels!.nodes[n]!;
    const station = groups.findIndex((group) => group.node === n && group.isStation);
    const part = groups[station]?.parts[0];
    const ways = part ? waysOf(part, keep, () => short) : [{ effect: 0, chance: 1, moves: keep }];
    steps.push({
      group: station,
      labelsAbove: count,
      labelsBelow: below,
      ways,
      chances: chancesByMoves(ways),
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
  if (moves === null) {
    for (let l = 0; l < labels; l++) visit(l, l, 1);
    return;
  }
  const { from, to, weight } = moves;
  for (let m = 0; m < weight.length; m++) visit(to[m]!, from[m]!, weight[m]!);
}

/** P(all steps) * weights from labels below to labels above, whatever the effect; at label above * starts + position below. */
export function labelMasses(steps: readonly LabelStep[], starts: readonly number[]): Float64Array {
  const width = starts.length;
  let below = new Float64Array((steps.at(-1)?.labelsBelow ?? 1) * width);
  starts.forEach((label, s) => (below[label * width + s] = 1));
  for (let step = steps.length - 1; step >= 0; step--) {
    const { labelsAbove, labelsBelow, chances } = steps[step]!;
    const above = new Float64Array(labelsAbove * width);
    const from = below;
    for (const [moves, chance] of chances)
      eachMove(moves, labelsBelow, (to, label, weight) => {
        for (let s = 0; s < width; s++)
          above[to * width + s]! += weight * chance * from[label * width + s]!;
      });
    below = above;
  }
  return below;
}

function chancesByMoves(ways: readonly StepWay[]): Map<Moves | null, number> {
  const chances = new Map<Moves | null, number>();
  for (const { moves, chance } of ways) chances.set(moves, (chances.get(moves) ?? 0) + chance);
  return chances;
}

/** The effects of a run that have any mass, a few of 256, with their masses. */
export interface EffectMasses {
  readonly effects: number[];
  readonly masses: number[];
}

/** By label above: P(effect of all steps) * weights, from one label below. */
export function labelledEffects(
  steps: readonly LabelStep[],
  from: number,
): ReadonlyMap<number, EffectMasses> {
  let found: PlacedMasses = { places: [from * EFFECT_COUNT], masses: [1] };
  for (let step = steps.length - 1; step >= 0; step--) found = effectsAbove(steps[step]!, found);
  const byLabel = new Map<number, EffectMasses>();
  found.places.forEach((place, i) => {
    const label = Math.floor(place / EFFECT_COUNT);
    const own = byLabel.get(label) ?? { effects: [], masses: [] };
    byLabel.set(label, own);
    own.effects.push(place % EFFECT_COUNT);
    own.masses.push(found.masses[i]!);
  });
  return byLabel;
}

/** Of labels and effects, at label * EFFECT_COUNT + effect: those that have any. */
interface PlacedMasses {
  readonly places: number[];
  readonly masses: number[];
}

/** Room for the masses of all labels and effects, empty between two steps. */
let room = new Float64Array(0);

function effectsAbove(
  { labelsAbove, ways }: LabelStep,
  { places, masses }: PlacedMasses,
): PlacedMasses {
  if (room.length < labelsAbove * EFFECT_COUNT) room = new Float64Array(labelsAbove * EFFECT_COUNT);
  const met: number[] = [];
  const add = (place: number, mass: number) => {
    if (room[place] === 0 && mass > 0) met.push(place);
    room[place]! += mass;
  };
  for (const { effect, chance, moves } of ways) {
    if (chance === 0) continue;
    const starts = moves && startsOf(moves);
    for (let i = 0; i < places.length; i++) {
      const label = Math.floor(places[i]! / EFFECT_COUNT);
      const both = inSeries(effect, places[i]! % EFFECT_COUNT);
      const mass = chance * masses[i]!;
      if (!moves || !starts) add(label * EFFECT_COUNT + both, mass);
      else
        for (let m = starts[label]!; m < starts[label + 1]!; m++)
          add(moves.to[m]! * EFFECT_COUNT + both, mass * moves.weight[m]!);
    }
  }
  const found = { places: met, masses: met.map((place) => room[place]!) };
  for (const place of met) room[place] = 0;
  return found;
}

const STARTS = new WeakMap<Moves, Uint32Array>();

/** Where the moves of each label below begin: they are in its order. */
function startsOf(moves: Moves): Uint32Array {
  const known = STARTS.get(moves);
  if (known) return known;
  const starts = new Uint32Array(MAX_LABELS + 1);
  for (const label of moves.from) starts[label + 1]!++;
  for (let label = 0; label < MAX_LABELS; label++) starts[label + 1]! += starts[label]!;
  STARTS.set(moves, starts);
  return starts;
}

/** Through one component, from the masses on one side of it: adds to those on the other what one way makes of them. */
function passStep(
  { effect, chance, moves }: StepWay,
  labels: number,
  feeds: readonly number[],
  from: { below: Float64Array } | { above: Float64Array },
  to: Float64Array,
): void {
  const isUp = 'below' in from;
  const masses = isUp ? from.below : from.above;
  eachMove(moves, labels, (above, below, weight) => {
    for (const feed of feeds) {
      const low = below * POINT_COUNT + feedThrough(effect, feed) * VIEW_COUNT;
      const high = above * POINT_COUNT + feed * VIEW_COUNT;
      for (let view = 0; view < VIEW_COUNT; view++) {
        const up = high + viewThrough(effect, view);
        const mass = masses[isUp ? low + view : up]!;
        if (mass > 0) to[isUp ? up : low + view]! += weight * chance * mass;
      }
    }
  });
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
  // By step, what comes up through its faults, and through all below it.
  const faults: Float64Array[] = [];
  let up = new Float64Array(steps.at(-1)!.labelsBelow * POINT_COUNT);
  up[below] = 1;
  for (let step = steps.length - 1; step >= 0; step--) {
    const { labelsAbove, labelsBelow, ways } = steps[step]!;
    const table = new Float64Array(labelsAbove * POINT_COUNT);
    ways.forEach((way, w) => {
      if (w > 0) passStep(way, labelsBelow, feeds, { below: up }, table);
    });
    faults[step] = table.slice();
    passStep(ways[0]!, labelsBelow, feeds, { below: up }, table);
    up = table;
  }
  let down = above;
  let top = above;
  let good = 1;
  steps.forEach(({ group, labelsBelow, ways }, s) => {
    if (group !== steps[s - 1]?.group) [top, good] = [down, 1];
    if (group >= 0) faulty[group]! += good * dot(top, faults[s]!);
    const passed = new Float64Array(labelsBelow * POINT_COUNT);
    for (const way of ways) passStep(way, labelsBelow, feeds, { above: down }, passed);
    good *= ways[0]!.chance;
    down = passed;
  });
  return dot(up, above);
}

/** By label below a run, the most that any modes of its components make of what is at the labels above. */
export function mostMoved(steps: readonly LabelStep[], above: Float64Array): Float64Array {
  let most = above;
  for (const { labelsBelow, chances } of steps) {
    const passed = new Float64Array(labelsBelow);
    const sums = new Float64Array(labelsBelow);
    for (const moves of chances.keys()) {
      sums.fill(0);
      eachMove(moves, labelsBelow, (to, from, weight) => (sums[from]! += weight * most[to]!));
      for (let label = 0; label < labelsBelow; label++)
        passed[label] = Math.max(passed[label]!, sums[label]!);
    }
    most = passed;
  }
  return most;
}
