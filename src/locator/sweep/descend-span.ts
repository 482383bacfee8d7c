/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { MAX_MODES } from '../../plan/plan.js';
import type { SpanLabels } from '../readings/label-plan.js';
import type { ComponentLabels } from '../readings/label-shape.js';
import type { Moves } from '../readings/label-space.js';
import type { SpanRatios } from './cross-span.js';
import { componentMatrix } from './component-matrix.js';
import type { Ratios } from './scale.js';
import { passDownOnly, passDownPlain } from './plain-pass.js';
import type { SpanChances, SpanPriors } from './span-chances.js';
import type { EffectClasses } from './effect-classes.js';
import type { SpanSlot, TrunkTables } from './trunk-tables.js';

/** Posterior masses of one component: of its effect classes, and last of `ok`. */
export function massesPerComponent(classes: EffectClasses): number {
  return classes.count + 1;
}

/** Three components, from the top down, and last the mass of "at least one of them is faulty". */
export function massesPerSpan(classes: EffectClasses): number {
  return 3 * massesPerComponent(classes) + 1;
}

/** The columns of a span that the sweep down has to visit, and the contexts of each label. */
export interface LiveColumns {
  readonly columns: Int32Array;
  readonly contexts: Int32Array;
}

/** Messages at four points of one span; as long as the span with most contexts wants. */
export interface DescentScratch {
  readonly top: Float64Array;
  readonly overCable: Float64Array;
  readonly overJunctionIn: Float64Array;
  readonly bottom: Float64Array;
}

/** One effect, downward, where labels stay: from states `to` above to `from` below. Its mass is returned. */
function addColumns(
  chance: number,
  ratio: Ratios,
  ratioAt: number,
  { columns, contexts }: SpanSlot,
  live: LiveColumns,
  { base, ...pairs }: StatePairs,
  down: Float64Array,
  downBelow: Float64Array,
  below: Float64Array,
): number {
  const { above, below: under, start, end } = pairs;
  let mass = 0;
  for (let k = 0; k < live.columns.length; k++) {
    const c = live.columns[k]!;
    const share = ratio === null ? chance : chance * ratio[ratioAt + (c % contexts)]!;
    for (let i = start; i < end; i++) {
      const b = under[i]! * columns + c;
      const part = share * down[above[i]! * columns + c]!;
      downBelow[b]! += part;
      mass += part * below[base + b]!;
    }
  }
  return mass;
}

interface StatePairs {
  /** Where the span's table begins in those of the trunk. */
  readonly base: number;
  readonly above: Uint16Array;
  readonly below: Uint16Array;
  readonly start: number;
  readonly end: number;
}

/** The same where the component changes labels. */
function moveColumns(
  chance: number,
  ratio: Ratios,
  ratioAt: number,
  { columns, contexts }: SpanSlot,
  live: LiveColumns,
  { from, to, weight }: Moves,
  { base, ...pairs }: StatePairs,
  down: Float64Array,
  downBelow: Float64Array,
  below: Float64Array,
): number {
  let mass = 0;
  for (let i = pairs.start; i < pairs.end; i++)
    for (let m = 0; m < weight.length; m++) {
      const source = pairs.above[i]! * columns + to[m]! * contexts;
      const target = pairs.below[i]! * columns + from[m]! * contexts;
      const share = chance * weight[m]!;
      for (const c of live.contexts) {
        const part = share * (ratio === null ? 1 : ratio[ratioAt + c]!) * down[source + c]!;
        downBelow[target + c]! += part;
        mass += part * below[base + target + c]!;
      }
    }
  return mass;
}

/** The good component, downward: sets `downBelow`; its mass is returned. */
function passOk(
  { feed, feeds }: EffectClasses,
  ok: number,
  ratio: Ratios,
  { at, columns, contexts }: SpanSlot,
  live: LiveColumns,
  down: Float64Array,
  downBelow: Float64Array,
  below: Float64Array,
): number {
  const base = at * feed.length;
  let mass = 0;
  for (let s = 0; s < feed.length; s++) {
    const cell = feed[s]! * (feeds + 1) * contexts;
    for (let k = 0; k < live.columns.length; k++) {
      const c = live.columns[k]!;
      const i = s * columns + c;
      const part = ok * (ratio === null ? 1 : ratio[cell + (c % contexts)]!) * down[i]!;
      downBelow[i] = part;
      mass += part * below[base + i]!;
    }
  }
  return mass;
}

/** As passDownPlain, whatever the scales and labels. */
export function passDown(
  classes: EffectClasses,
  slot: SpanSlot,
  live: LiveColumns,
  chances: SpanChances,
  moves: readonly (Moves | null)[] | undefined,
  ratio: Ratios,
  down: Float64Array,
  downBelow: Float64Array,
  below: Float64Array,
  masses: Float64Array,
  m: number,
): void {
  const { blockEffect, ratioCell, start, feed } = classes;
  masses[m + classes.count] = passOk(
    classes,
    chances.ok,
    ratio,
    slot,
    live,
    down,
    downBelow,
    below,
  );
  for (let block = 0; block < blockEffect.length; block++) {
    const effect = blockEffect[block]!;
    const chance = chances.effects[effect]!;
    if (chance === 0) continue;
    const moved = moves?.[effect];
    const cell = ratioCell[block]! * slot.contexts;
    const { above, below: under } = classes;
    const base = slot.at * feed.length;
    const pairs = { base, above, below: under, start: start[block]!, end: start[block + 1]! };
    masses[m + effect]! += moved
      ? moveColumns(chance, ratio, cell, slot, live, moved, pairs, down, downBelow, below)
      : addColumns(chance, ratio, cell, slot, live, pairs, down, downBelow, below);
  }
}

function dot(
  down: Float64Array,
  up: Float64Array,
  { at, columns }: SpanSlot,
  live: Int32Array,
  states: number,
): number {
  const base = at * states;
  let sum = 0;
  for (let s = 0; s < columns * states; s += columns)
    for (let k = 0; k < live.length; k++) sum += down[s + live[k]!]! * up[base + s + live[k]!]!;
  return sum;
}

/** The same where the component leaves scales as they are. */
export function passMatrix(
  { space }: Pick<TrunkTables, 'space'>,
  slot: SpanSlot,
  live: LiveColumns,
  classes: EffectClasses,
  chances: SpanChances,
  labels: ComponentLabels | null | undefined,
  down: Float64Array,
  downBelow: Float64Array,
  below: Float64Array,
  masses: Float64Array | null,
  m: number,
): void {
  const { pairs, weights, columns, effect } = componentMatrix(
    classes,
    space.view,
    slot,
    chances,
    labels,
  );
  const table = { base: slot.at * space.count, columns };
  const visited = effect ? live.contexts : live.columns;
  if (masses === null) {
    passDownOnly(pairs, chances.ok, weights, table, visited, down, downBelow);
    return;
  }
  masses[m + classes.count] = passDownPlain(
    pairs,
    chances.ok,
    weights,
    table,
    visited,
    down,
    downBelow,
    below,
  );
  if (effect) addPairs(effect, weights, pairs.scratch, masses, m);
  else addEffects(classes, chances.effects, masses, m);
}

/** From what went each pair's way, where each is of one effect, to masses by effect, at m. */
function addPairs(
  effect: Uint8Array,
  weights: Float64Array,
  travelled: Float64Array,
  masses: Float64Array,
  m: number,
): void {
  for (let i = 0; i < effect.length; i++) masses[m + effect[i]!]! += weights[i]! * travelled[i]!;
}

/** The same where pairs are of several effects. */
function addEffects(
  { count, effectStart, pairs: { ofEntry, scratch: travelled } }: EffectClasses,
  effects: Float64Array,
  masses: Float64Array,
  m: number,
): void {
  for (let effect = 0; effect < count; effect++) {
    const end = effectStart[effect + 1]!;
    let sum = 0;
    for (let i = effectStart[effect]!; i < end; i++) sum += travelled[ofEntry[i]!]!;
    masses[m + effect]! += effects[effect]! * sum;
  }
}

/** Where the masses of one component go that nobody wants: more than there are effects. */
const UNWANTED = new Float64Array(MAX_MODES + 1);

/**
 * From the message `scratch.top` at the top of a span (in the inverse scale of the one that went up) to
 * `scratch.bottom`, in the columns that are `live`; the posterior of the span's components goes to masses[m…], as
 * massesPerSpan says, unless it is not wanted.
 */
export function descendSpan(
  tables: TrunkTables,
  slot: SpanSlot,
  live: LiveColumns,
  ratio: SpanRatios,
  classes: EffectClasses,
  { junctionOut, cable, junctionIn }: SpanPriors,
  labels: SpanLabels | undefined,
  scratch: DescentScratch,
  masses: Float64Array | null,
  m: number,
): void {
  const { top, overCable, overJunctionIn: overIn, bottom } = scratch;
  const { aboveCable, aboveJunctionIn } = tables;
  const next = massesPerComponent(classes);
  const pass = (
    chances: SpanChances,
    own: ComponentLabels | null | undefined,
    scales: Ratios,
    from: Float64Array,
    to: Float64Array,
    below: Float64Array,
    at: number,
  ) => {
    if (scales === null)
      passMatrix(tables, slot, live, classes, chances, own, from, to, below, masses, at);
    else {
      const wanted = masses ?? UNWANTED;
      const m = masses === null ? 0 : at;
      passDown(classes, slot, live, chances, own?.moves, scales, from, to, below, wanted, m);
    }
  };
  const { up, inward } = ratio;
  pass(junctionOut, labels?.junctionOut, up, top, overCable, aboveCable, m);
  pass(cable, labels?.cable, up, overCable, overIn, aboveJunctionIn, m + next);
  pass(junctionIn, labels?.junctionIn, inward, overIn, bottom, tables.bottom, m + 2 * next);
  if (masses !== null)
    masses[m + 3 * next] = dot(top, tables.faulty, slot, live.columns, classes.feed.length);
}
