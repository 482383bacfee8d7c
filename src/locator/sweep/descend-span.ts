/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { SpanRatios } from './cross-span.js';
import { FEED_CLASSES } from './feed-classes.js';
import type { Ratios } from './gauge.js';
import type { SpanChances, SpanPriors } from './span-chances.js';
import { EFFECTS, STATE_COUNT, STATES } from './states.js';
import type { SpanSlot, TrunkTables } from './trunk-tables.js';

/** Posterior masses of one component: of its effect classes, and last of `ok`. */
export const MASSES_PER_COMPONENT = EFFECTS.count + 1;

/** Three components, from the top down, and last the mass of "at least one of them is faulty". */
export const MASSES_PER_SPAN = 3 * MASSES_PER_COMPONENT + 1;

/** Messages at four points of one span; as long as the span with most contexts wants. */
export interface DescentScratch {
  readonly top: Float64Array;
  readonly overCable: Float64Array;
  readonly overJunctionIn: Float64Array;
  readonly bottom: Float64Array;
}

/** One component, downward: `downBelow` gets the message below it, masses[m…] the posterior of its effects. */
function passDown(
  chances: SpanChances,
  ratio: Ratios,
  { at, contexts }: SpanSlot,
  live: Int32Array,
  down: Float64Array,
  downBelow: Float64Array,
  below: Float64Array,
  masses: Float64Array,
  m: number,
): void {
  const base = at * STATE_COUNT;
  let okMass = 0;
  for (let s = 0; s < STATE_COUNT; s++) {
    const cell = STATES.feed[s]! * (FEED_CLASSES + 1) * contexts;
    for (let k = 0; k < live.length; k++) {
      const c = live[k]!;
      const i = s * contexts + c;
      const part = chances.ok * (ratio === null ? 1 : ratio[cell + c]!) * down[i]!;
      downBelow[i] = part;
      okMass += part * below[base + i]!;
    }
  }
  masses[m + EFFECTS.count] = okMass;
  const { blockEffect, ratioCell, start, above: to, below: from } = EFFECTS;
  for (let block = 0; block < blockEffect.length; block++) {
    const effect = blockEffect[block]!;
    const chance = chances.effects[effect]!;
    if (chance === 0) continue;
    const cell = ratioCell[block]! * contexts;
    const end = start[block + 1]!;
    let mass = 0;
    for (let k = 0; k < live.length; k++) {
      const c = live[k]!;
      const share = ratio === null ? chance : chance * ratio[cell + c]!;
      for (let i = start[block]!; i < end; i++) {
        const b = from[i]! * contexts + c;
        const part = share * down[to[i]! * contexts + c]!;
        downBelow[b]! += part;
        mass += part * below[base + b]!;
      }
    }
    masses[m + effect]! += mass;
  }
}

function dot(
  down: Float64Array,
  up: Float64Array,
  { at, contexts }: SpanSlot,
  live: Int32Array,
): number {
  const base = at * STATE_COUNT;
  let sum = 0;
  for (let s = 0; s < contexts * STATE_COUNT; s += contexts)
    for (let k = 0; k < live.length; k++) sum += down[s + live[k]!]! * up[base + s + live[k]!]!;
  return sum;
}

/**
 * From the message `scratch.top` at the top of a span (in the inverse gauge of the one that went up) to
 * `scratch.bottom`, in the contexts that are `live`; the posterior of the span's components goes to masses[m…], as
 * MASSES_PER_SPAN says.
 */
export function descendSpan(
  tables: TrunkTables,
  slot: SpanSlot,
  live: Int32Array,
  ratio: SpanRatios,
  { junctionOut, cable, junctionIn }: SpanPriors,
  scratch: DescentScratch,
  masses: Float64Array,
  m: number,
): void {
  const { top, overCable, overJunctionIn, bottom } = scratch;
  const { aboveCable, aboveJunctionIn } = tables;
  const next = MASSES_PER_COMPONENT;
  passDown(junctionOut, ratio.up, slot, live, top, overCable, aboveCable, masses, m);
  passDown(
    cable,
    ratio.up,
    slot,
    live,
    overCable,
    overJunctionIn,
    aboveJunctionIn,
    masses,
    m + next,
  );
  passDown(
    junctionIn,
    ratio.inward,
    slot,
    live,
    overJunctionIn,
    bottom,
    tables.bottom,
    masses,
    m + 2 * next,
  );
  // The first faulty one from the top is the junction-out, or the cable with a good junction-out, or the junction-in with
  // both good: disjoint, so that the chance of any fault is a sum and not 1 minus something near 1.
  masses[m + 3 * next] =
    dot(top, tables.faultyJunctionOut, slot, live) +
    junctionOut.ok * dot(top, tables.faultyCable, slot, live) +
    junctionOut.ok * cable.ok * dot(top, tables.faultyJunctionIn, slot, live);
}
