/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { SpanLabels } from '../readings/label-plan.js';
import type { Moves } from '../readings/label-space.js';
import type { SpanRatios } from './cross-span.js';
import { FEED_CLASSES } from './feed-classes.js';
import type { Ratios } from './gauge.js';
import type { SpanChances, SpanPriors } from './span-chances.js';
import { type EffectClasses, STATE_COUNT, STATES } from './states.js';
import type { SpanSlot, TrunkTables } from './trunk-tables.js';

/** Posterior masses of one component: of its effect classes, and last of `ok`. */
export function massesPerComponent(classes: EffectClasses): number {
  return classes.count + 1;
}

/** Three components, from the top down, and last the mass of "at least one of them is faulty". */
export function massesPerSpan(classes: EffectClasses): number {
  return 3 * massesPerComponent(classes) + 1;
}

/** Messages at four points of one span; as long as the span with most contexts wants. */
export interface DescentScratch {
  readonly top: Float64Array;
  readonly overCable: Float64Array;
  readonly overJunctionIn: Float64Array;
  readonly bottom: Float64Array;
}

/** One pair of states, downward, where the component changes labels; what it adds to the mass is returned. */
function moveColumns(
  chance: number,
  ratio: Ratios,
  ratioAt: number,
  contexts: number,
  { from, to, weight }: Moves,
  down: Float64Array,
  a: number,
  downBelow: Float64Array,
  b: number,
  below: Float64Array,
  base: number,
): number {
  let mass = 0;
  for (let m = 0; m < weight.length; m++) {
    const source = a + to[m]! * contexts;
    const target = b + from[m]! * contexts;
    const share = chance * weight[m]!;
    for (let c = 0; c < contexts; c++) {
      const part = share * (ratio === null ? 1 : ratio[ratioAt + c]!) * down[source + c]!;
      downBelow[target + c]! += part;
      mass += part * below[base + target + c]!;
    }
  }
  return mass;
}

/** The good component, downward: sets `downBelow`; its mass is returned. */
function passOk(
  ok: number,
  ratio: Ratios,
  { at, columns, contexts }: SpanSlot,
  down: Float64Array,
  downBelow: Float64Array,
  below: Float64Array,
): number {
  const base = at * STATE_COUNT;
  let mass = 0;
  if (ratio === null)
    for (let i = 0; i < columns * STATE_COUNT; i++) {
      const part = ok * down[i]!;
      downBelow[i] = part;
      mass += part * below[base + i]!;
    }
  else
    for (let s = 0; s < STATE_COUNT; s++) {
      const cell = STATES.feed[s]! * (FEED_CLASSES + 1) * contexts;
      for (let i = s * columns; i < (s + 1) * columns; i++) {
        const part = ok * ratio[cell + (i % contexts)]! * down[i]!;
        downBelow[i] = part;
        mass += part * below[base + i]!;
      }
    }
  return mass;
}

/** One pair of states, downward, where labels stay; what it adds to the mass is returned. */
function addColumns(
  chance: number,
  ratio: Ratios,
  ratioAt: number,
  { columns, contexts }: SpanSlot,
  down: Float64Array,
  a: number,
  downBelow: Float64Array,
  b: number,
  below: Float64Array,
  base: number,
): number {
  let mass = 0;
  if (ratio === null)
    for (let c = 0; c < columns; c++) {
      const part = chance * down[a + c]!;
      downBelow[b + c]! += part;
      mass += part * below[base + b + c]!;
    }
  else
    for (let c = 0; c < columns; c++) {
      const part = chance * ratio[ratioAt + (c % contexts)]! * down[a + c]!;
      downBelow[b + c]! += part;
      mass += part * below[base + b + c]!;
    }
  return mass;
}

/** One component, downward: `downBelow` gets the message below it, masses[m…] the posterior of its effects. */
function passDown(
  classes: EffectClasses,
  chances: SpanChances,
  moves: readonly (Moves | null)[] | undefined,
  ratio: Ratios,
  slot: SpanSlot,
  down: Float64Array,
  downBelow: Float64Array,
  below: Float64Array,
  masses: Float64Array,
  m: number,
): void {
  const { blockEffect, ratioCell, start, above: to, below: from } = classes;
  const { at, columns, contexts } = slot;
  const base = at * STATE_COUNT;
  masses[m + classes.count] = passOk(chances.ok, ratio, slot, down, downBelow, below);
  for (let block = 0; block < blockEffect.length; block++) {
    const effect = blockEffect[block]!;
    const chance = chances.effects[effect]!;
    if (chance === 0) continue;
    const moved = moves?.[effect];
    const cell = ratioCell[block]! * contexts;
    const end = start[block + 1]!;
    let mass = 0;
    for (let i = start[block]!; i < end; i++) {
      const a = to[i]! * columns;
      const b = from[i]! * columns;
      mass += moved
        ? moveColumns(chance, ratio, cell, contexts, moved, down, a, downBelow, b, below, base)
        : addColumns(chance, ratio, cell, slot, down, a, downBelow, b, below, base);
    }
    masses[m + effect]! += mass;
  }
}

function dot(down: Float64Array, up: Float64Array, { at, columns }: SpanSlot): number {
  const base = at * STATE_COUNT;
  let sum = 0;
  for (let i = 0; i < columns * STATE_COUNT; i++) sum += down[i]! * up[base + i]!;
  return sum;
}

/**
 * From the message `scratch.top` at the top of a span (in the inverse gauge of the one that went up) to
 * `scratch.bottom`; the posterior of the span's components goes to masses[m…], as MASSES_PER_SPAN says.
 */
export function descendSpan(
  tables: TrunkTables,
  slot: SpanSlot,
  ratio: SpanRatios,
  classes: EffectClasses,
  { junctionOut, cable, junctionIn }: SpanPriors,
  labels: SpanLabels | undefined,
  scratch: DescentScratch,
  masses: Float64Array,
  m: number,
): void {
  const { top, overCable, overJunctionIn: overIn, bottom } = scratch;
  const { aboveCable, aboveJunctionIn } = tables;
  const next = massesPerComponent(classes);
  const pass = passDown.bind(null, classes);
  const { up, inward } = ratio;
  pass(junctionOut, labels?.junctionOut, up, slot, top, overCable, aboveCable, masses, m);
  pass(cable, labels?.cable, up, slot, overCable, overIn, aboveJunctionIn, masses, m + next);
  const last = m + 2 * next;
  pass(junctionIn, labels?.junctionIn, inward, slot, overIn, bottom, tables.bottom, masses, last);
  // The first faulty one from the top is the junction-out, or the cable with a good junction-out, or the junction-in with
  // both good: disjoint, so that the chance of any fault is a sum and not 1 minus something near 1.
  masses[m + 3 * next] =
    dot(top, tables.faultyJunctionOut, slot) +
    junctionOut.ok * dot(top, tables.faultyCable, slot) +
    junctionOut.ok * cable.ok * dot(top, tables.faultyJunctionIn, slot);
}
