/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { FEED_CLASSES } from './feed-classes.js';
import { EQUAL_RATIOS, ratios, type Ratios, reachable } from './gauge.js';
import type { SpanChances } from './span-chances.js';
import type { SpanTables } from './span-tables.js';
import { EFFECTS, STATE_COUNT, STATES } from './states.js';

/** One component, upward: `above` = all its modes, `faulty` = its fault modes, each over the states above it. */
function passUp(
  chances: SpanChances,
  ratio: Ratios,
  below: Float64Array,
  faulty: Float64Array,
  above: Float64Array,
  at: number,
): void {
  const { blockEffect, ratioCell, start, above: to, below: from } = EFFECTS;
  for (let block = 0; block < blockEffect.length; block++) {
    const chance = chances.effects[blockEffect[block]!]! * ratio[ratioCell[block]!]!;
    if (chance === 0) continue;
    const end = start[block + 1]!;
    for (let i = start[block]!; i < end; i++)
      faulty[at + to[i]!]! += chance * below[at + from[i]!]!;
  }
  for (let s = 0; s < STATE_COUNT; s++) {
    const ok = chances.ok * ratio[STATES.feed[s]! * (FEED_CLASSES + 1)]!;
    above[at + s] = faulty[at + s]! + ok * below[at + s]!;
  }
}

/** Which effect classes can occur in a span at all, as bits. */
function possibleEffects(junction: SpanChances, cable: SpanChances): number {
  let set = 0;
  for (let effect = 0; effect < EFFECTS.count; effect++)
    if (junction.effects[effect]! > 0 || cable.effects[effect]! > 0) set |= 1 << effect;
  return set;
}

function chooseGauge(tables: SpanTables, context: number, reach: readonly number[][]): void {
  const at = context * FEED_CLASSES;
  const { bottomGauge, topGauge } = tables;
  let rescaled = false;
  reach.forEach((feeds, feed) => {
    let most = -Infinity;
    for (const to of feeds) most = Math.max(most, bottomGauge[at + to]!);
    topGauge[at + feed] = most;
    rescaled ||= topGauge[at + feed] !== 0 || bottomGauge[at + feed] !== 0;
  });
  tables.ratiosIn[context] = rescaled ? ratios(topGauge, at, bottomGauge, at, reach) : EQUAL_RATIOS;
  tables.ratiosUp[context] = rescaled ? ratios(topGauge, at, topGauge, at, reach) : EQUAL_RATIOS;
}

/**
 * From `bottom` to `top` of a span: over its junction-in, cable and junction-out (fault model, section 3, "View"), in
 * place.
 */
export function crossSpan(tables: SpanTables, junction: SpanChances, cable: SpanChances): void {
  const reach = reachable(possibleEffects(junction, cable));
  for (let context = 0; context < tables.contexts; context++) {
    chooseGauge(tables, context, reach);
    const at = context * STATE_COUNT;
    const up = tables.ratiosUp[context]!;
    const { bottom, aboveJunctionIn, aboveCable, top } = tables;
    const inward = tables.ratiosIn[context]!;
    passUp(junction, inward, bottom, tables.faultyJunctionIn, aboveJunctionIn, at);
    passUp(cable, up, aboveJunctionIn, tables.faultyCable, aboveCable, at);
    passUp(junction, up, aboveCable, tables.faultyJunctionOut, top, at);
  }
}

/** Posterior masses of a component's effect classes, summed over contexts; and of `ok`. */
export interface EffectMasses {
  ok: number;
  readonly effects: Float64Array;
}

/** One component, downward: `downBelow` gets the message below it, `masses` the posterior of its effects. */
function passDown(
  chances: SpanChances,
  ratio: Ratios,
  down: Float64Array,
  downBelow: Float64Array,
  below: Float64Array,
  at: number,
  masses: EffectMasses,
): void {
  const { blockEffect, ratioCell, start, above: to, below: from } = EFFECTS;
  for (let s = 0; s < STATE_COUNT; s++) {
    const ok = chances.ok * ratio[STATES.feed[s]! * (FEED_CLASSES + 1)]! * down[at + s]!;
    downBelow[at + s] = ok;
    masses.ok += ok * below[at + s]!;
  }
  for (let block = 0; block < blockEffect.length; block++) {
    const effect = blockEffect[block]!;
    const chance = chances.effects[effect]! * ratio[ratioCell[block]!]!;
    if (chance === 0) continue;
    const end = start[block + 1]!;
    let mass = 0;
    for (let i = start[block]!; i < end; i++) {
      const part = chance * down[at + to[i]!]!;
      downBelow[at + from[i]!]! += part;
      mass += part * below[at + from[i]!]!;
    }
    masses.effects[effect]! += mass;
  }
}

/** What the sweep down finds in one span. */
export interface SpanMasses {
  readonly junctionOut: EffectMasses;
  readonly cable: EffectMasses;
  readonly junctionIn: EffectMasses;
  /** At least one of the three is faulty. */
  faulty: number;
}

function emptyMasses(): EffectMasses {
  return { ok: 0, effects: new Float64Array(EFFECTS.count) };
}

function dot(a: Float64Array, b: Float64Array, at: number): number {
  let sum = 0;
  for (let s = at; s < at + STATE_COUNT; s++) sum += a[s]! * b[s]!;
  return sum;
}

/**
 * From the message `down` at the top of a span (in the inverse gauge of `top`) to the one at its bottom, which is
 * returned, with the posterior of its components.
 */
export function descendSpan(
  tables: SpanTables,
  junction: SpanChances,
  cable: SpanChances,
  down: Float64Array,
): { atBottom: Float64Array; masses: SpanMasses } {
  const masses: SpanMasses = {
    junctionOut: emptyMasses(),
    cable: emptyMasses(),
    junctionIn: emptyMasses(),
    faulty: 0,
  };
  const overCable = new Float64Array(down.length);
  const overJunctionIn = new Float64Array(down.length);
  const atBottom = new Float64Array(down.length);
  for (let context = 0; context < tables.contexts; context++) {
    const at = context * STATE_COUNT;
    const up = tables.ratiosUp[context]!;
    const inward = tables.ratiosIn[context]!;
    const { bottom, aboveJunctionIn, aboveCable } = tables;
    passDown(junction, up, down, overCable, aboveCable, at, masses.junctionOut);
    passDown(cable, up, overCable, overJunctionIn, aboveJunctionIn, at, masses.cable);
    passDown(junction, inward, overJunctionIn, atBottom, bottom, at, masses.junctionIn);
    // The first faulty one from the top is the junction-out, or the cable with a good junction-out, or the junction-in
    // with both good: disjoint, so that the chance of any fault is a sum and not 1 minus something near 1.
    masses.faulty +=
      dot(down, tables.faultyJunctionOut, at) +
      junction.ok * dot(down, tables.faultyCable, at) +
      junction.ok * cable.ok * dot(down, tables.faultyJunctionIn, at);
  }
  return { atBottom, masses };
}
