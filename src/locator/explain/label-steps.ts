/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { Moves } from '../readings/label-space.js';
import type { TrunkModel } from '../sweep/trunk-model.js';
import type { SeriesPart } from './component-priors.js';
import { EFFECT_COUNT, inSeries } from './run-effects.js';
import type { RunGroup } from './run.js';
import { ReusedTable, zeroTable } from '../numbers/zero-table.js';

// On a trunk with continuity or loop readings a run does two things: it has an effect, as everywhere, and it changes the
// label (readings/label.ts). A step is what one component does to both.

/** What a component in one mode does; `moves` from labels below to labels above, null where they stay. */
export interface StepWay {
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
  let below = zeroTable((steps.at(-1)?.labelsBelow ?? 1) * width);
  starts.forEach((label, s) => (below[label * width + s] = 1));
  for (let step = steps.length - 1; step >= 0; step--) {
    const { labelsAbove, labelsBelow, chances } = steps[step]!;
    const above = zeroTable(labelsAbove * width);
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
  readonly effects: Uint8Array;
  readonly masses: Float64Array;
}

/** By label above: P(effect of all steps) * weights, from one label below. */
export function labelledEffects(
  steps: readonly LabelStep[],
  from: number,
): readonly (EffectMasses | undefined)[] {
  let [found, next] = PLACED;
  found.empty();
  found.add(from * EFFECT_COUNT, 1);
  for (let step = steps.length - 1; step >= 0; step--) {
    passEffects(steps[step]!, found, next);
    [found, next] = [next, found];
  }
  return byLabelOf(found, steps[0]?.labelsAbove ?? from + 1);
}

function byLabelOf(
  { places, masses, count }: PlacedMasses,
  labels: number,
): (EffectMasses | undefined)[] {
  const sizes = new Int32Array(labels);
  for (let i = 0; i < count; i++) sizes[Math.floor(places[i]! / EFFECT_COUNT)]!++;
  const byLabel = Array.from(sizes, (size) =>
    size > 0 ? { effects: new Uint8Array(size), masses: zeroTable(size) } : undefined,
  );
  sizes.fill(0);
  for (let i = 0; i < count; i++) {
    const label = Math.floor(places[i]! / EFFECT_COUNT);
    const own = byLabel[label]!;
    const at = sizes[label]!++;
    own.effects[at] = places[i]! % EFFECT_COUNT;
    own.masses[at] = masses[i]!;
  }
  return byLabel;
}

/** Of labels and effects, at label * EFFECT_COUNT + effect: those that have any, in arrays that grow and are used again. */
class PlacedMasses {
  places = new Int32Array(EFFECT_COUNT);
  masses = new Float64Array(EFFECT_COUNT);
  count = 0;

  empty(): void {
    this.count = 0;
  }

  add(place: number, mass: number): void {
    if (this.count === this.places.length) this.grow();
    this.places[this.count] = place;
    this.masses[this.count++] = mass;
  }

  private grow(): void {
    const { places, masses } = this;
    this.places = new Int32Array(2 * places.length);
    this.masses = new Float64Array(2 * places.length);
    this.places.set(places);
    this.masses.set(masses);
  }
}

/** What is below a step and above it, by turns. */
const PLACED: readonly [PlacedMasses, PlacedMasses] = [new PlacedMasses(), new PlacedMasses()];

/** The masses of all labels and effects; empty between two steps. */
const SUMS = new ReusedTable();

function addMass(sums: Float64Array, above: PlacedMasses, to: number, mass: number): void {
  if (mass === 0) return;
  if (sums[to] === 0) above.add(to, 0);
  sums[to]! += mass;
}

function passEffects(
  { labelsAbove, labelsBelow, ways }: LabelStep,
  { places, masses, count }: PlacedMasses,
  above: PlacedMasses,
): void {
  const sums = SUMS.of(labelsAbove * EFFECT_COUNT);
  above.empty();
  for (const { effect, chance, moves } of ways) {
    if (chance === 0) continue;
    const starts = moves && startsOf(moves, labelsBelow);
    for (let i = 0; i < count; i++) {
      const place = places[i]!;
      const below = place % EFFECT_COUNT;
      const mass = chance * masses[i]!;
      if (!moves || !starts) {
        addMass(sums, above, place - below + inSeries(effect, below), mass);
        continue;
      }
      const { to, weight } = moves;
      const label = (place - below) / EFFECT_COUNT;
      const both = inSeries(effect, below);
      const end = starts[label + 1]!;
      for (let m = starts[label]!; m < end; m++)
        addMass(sums, above, to[m]! * EFFECT_COUNT + both, mass * weight[m]!);
    }
  }
  for (let i = 0; i < above.count; i++) {
    const place = above.places[i]!;
    above.masses[i] = sums[place]!;
    sums[place] = 0;
  }
}

const STARTS = new WeakMap<Moves, Uint32Array>();

/** Where the moves of each label below begin: they are in its order. */
function startsOf(moves: Moves, labels: number): Uint32Array {
  const known = STARTS.get(moves);
  if (known) return known;
  const starts = new Uint32Array(labels + 1);
  for (const label of moves.from) starts[label + 1]!++;
  for (let label = 0; label < labels; label++) starts[label + 1]! += starts[label]!;
  STARTS.set(moves, starts);
  return starts;
}

/** By label below a run, the most that any modes of its components make of what is at the labels above. */
export function mostMoved(steps: readonly LabelStep[], above: Float64Array): Float64Array {
  let most = above;
  for (const { labelsBelow, chances } of steps) {
    const passed = zeroTable(labelsBelow);
    const sums = zeroTable(labelsBelow);
    for (const moves of chances.keys()) {
      if (moves) {
        const { from, to, weight } = moves;
        sums.fill(0);
        for (let m = 0; m < weight.length; m++) sums[from[m]!]! += weight[m]! * most[to[m]!]!;
      }
      const own = moves ? sums : most;
      for (let label = 0; label < labelsBelow; label++)
        passed[label] = Math.max(passed[label]!, own[label]!);
    }
    most = passed;
  }
  return most;
}
