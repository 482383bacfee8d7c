/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { SpanLabels } from '../readings/label-plan.js';
import type { ComponentLabels } from '../readings/label-shape.js';
import type { Moves } from '../readings/label-space.js';
import { ratios, type Ratios, reachable } from './scale.js';
import { componentMatrix } from './component-matrix.js';
import { passUpPlain } from './plain-pass.js';
import type { SpanChances, SpanPriors } from './span-chances.js';
import type { EffectClasses } from './effect-classes.js';
import type { SpanSlot, TrunkTables } from './trunk-tables.js';
import { zeroTable } from '../numbers/zero-table.js';

/** Adds `share` of one state's columns below to one above. `ratioAt` is where the ratios of these two feeds start. */
function addColumns(
  share: number,
  ratio: Ratios,
  ratioAt: number,
  { columns, contexts }: SpanSlot,
  below: Float64Array,
  b: number,
  sums: Float64Array,
  a: number,
): void {
  if (ratio === null) for (let c = 0; c < columns; c++) sums[a + c]! += share * below[b + c]!;
  else
    for (let l = 0; l < columns; l += contexts)
      for (let c = 0; c < contexts; c++)
        sums[a + l + c]! += share * ratio[ratioAt + c]! * below[b + l + c]!;
}

/** The same where the component changes labels. */
function moveColumns(
  chance: number,
  ratio: Ratios,
  ratioAt: number,
  contexts: number,
  { from, to, weight }: Moves,
  below: Float64Array,
  b: number,
  sums: Float64Array,
  a: number,
): void {
  for (let m = 0; m < weight.length; m++) {
    const source = b + from[m]! * contexts;
    const target = a + to[m]! * contexts;
    const share = chance * weight[m]!;
    for (let c = 0; c < contexts; c++)
      sums[target + c]! += share * (ratio === null ? 1 : ratio[ratioAt + c]!) * below[source + c]!;
  }
}

/** As passUpPlain, whatever the scales and labels. */
export function passUp(
  classes: EffectClasses,
  chances: SpanChances,
  moves: readonly (Moves | null)[] | undefined,
  ratio: Ratios,
  slot: SpanSlot,
  below: Float64Array,
  faulty: Float64Array,
  above: Float64Array,
): void {
  const { blockEffect, ratioCell, start, above: to, below: from, feed, feeds } = classes;
  const { at, columns, contexts } = slot;
  const states = feed.length;
  const base = at * states;
  above.fill(0, base, base + columns * states);
  for (let block = 0; block < blockEffect.length; block++) {
    const effect = blockEffect[block]!;
    const chance = chances.effects[effect]!;
    if (chance === 0) continue;
    const moved = moves?.[effect];
    const cell = ratioCell[block]! * contexts;
    const end = start[block + 1]!;
    for (let i = start[block]!; i < end; i++) {
      const a = base + to[i]! * columns;
      const b = base + from[i]! * columns;
      if (moved) moveColumns(chance, ratio, cell, contexts, moved, below, b, above, a);
      else addColumns(chance, ratio, cell, slot, below, b, above, a);
    }
  }
  const end = base + columns * states;
  for (let i = base; i < end; i++) faulty[i] = above[i]! + chances.ok * faulty[i]!;
  if (ratio === null) for (let i = base; i < end; i++) above[i]! += chances.ok * below[i]!;
  else
    for (let s = 0; s < states; s++) {
      const a = base + s * columns;
      const cell = feed[s]! * (feeds + 1) * contexts;
      addColumns(chances.ok, ratio, cell, slot, below, a, above, a);
    }
}

/** Which effect classes can occur in a span at all, as bits. */
function possibleEffects(
  { count }: EffectClasses,
  { junctionOut, cable, junctionIn }: SpanPriors,
): number {
  let set = 0;
  for (let effect = 0; effect < count; effect++)
    if (junctionOut.effects[effect]! + cable.effects[effect]! + junctionIn.effects[effect]! > 0)
      set |= 1 << effect;
  return set;
}

/** Whether a context has one scale for all classes of feed, at every context. */
function isOneScale(
  logScale: Float64Array,
  base: number,
  contexts: number,
  feeds: number,
): boolean {
  const end = base + contexts * feeds;
  for (let i = base + contexts; i < end; i++)
    if (logScale[i] !== logScale[i - contexts]) return false;
  return true;
}

/** The ratios of a span: for the step over its junction-in, and for the two steps above that. */
export interface SpanRatios {
  readonly inward: Ratios;
  readonly up: Ratios;
}

const NO_RATIOS: SpanRatios = { inward: null, up: null };

/**
 * What is ruled out takes the smallest scale of its context: a larger one, of nothing, would be passed up to feeds from
 * which it can be reached and drive what they do have out of the range of doubles.
 */
function lowerEmpty(
  { bottom, bottomScale, space }: TrunkTables,
  { at, columns, scaleAt, contexts }: SpanSlot,
): void {
  const { count: states, feeds, feed } = space;
  const most = zeroTable(feeds * contexts);
  for (let s = 0; s < states; s++)
    for (let i = 0; i < columns; i++) {
      const of = feed[s]! * contexts + (i % contexts);
      most[of] = Math.max(most[of]!, bottom[at * states + s * columns + i]!);
    }
  const base = scaleAt * feeds;
  for (let c = 0; c < contexts; c++) {
    let least = Infinity;
    for (let i = c; i < most.length; i += contexts)
      if (most[i]! > 0) least = Math.min(least, bottomScale[base + i]!);
    for (let i = c; i < most.length; i += contexts)
      if (most[i] === 0) bottomScale[base + i] = least === Infinity ? 0 : least;
  }
}

function chooseScale(
  tables: TrunkTables,
  slot: SpanSlot,
  classes: EffectClasses,
  components: SpanPriors,
): SpanRatios {
  const { bottomScale, topScale } = tables;
  const { scaleAt, contexts } = slot;
  const { feeds } = classes;
  const base = scaleAt * feeds;
  if (isOneScale(bottomScale, base, contexts, feeds)) {
    for (let i = base; i < base + contexts * feeds; i++) topScale[i] = bottomScale[i]!;
    return NO_RATIOS;
  }
  lowerEmpty(tables, slot);
  const reach = reachable(classes, possibleEffects(classes, components));
  for (let feed = 0; feed < feeds; feed++)
    for (let c = base; c < base + contexts; c++) {
      let most = -Infinity;
      for (const to of reach[feed]!) most = Math.max(most, bottomScale[c + to * contexts]!);
      topScale[c + feed * contexts] = most;
    }
  return {
    inward: ratios(topScale, bottomScale, base, contexts, reach),
    up: ratios(topScale, topScale, base, contexts, reach),
  };
}

function pass(
  { faulty, space }: TrunkTables,
  slot: SpanSlot,
  classes: EffectClasses,
  chances: SpanChances,
  labels: ComponentLabels | null | undefined,
  ratio: Ratios,
  below: Float64Array,
  above: Float64Array,
): void {
  if (ratio !== null) {
    passUp(classes, chances, labels?.moves, ratio, slot, below, faulty, above);
    return;
  }
  const { pairs, weights, columns } = componentMatrix(classes, space.view, slot, chances, labels);
  const table = { base: slot.at * space.count, columns };
  passUpPlain(pairs, chances.ok, weights, table, below, faulty, above);
}

/** From `bottom` to `top` of a span: over its junction-in, cable and junction-out (fault model, section 3, "View"). */
export function crossSpan(
  tables: TrunkTables,
  slot: SpanSlot,
  classes: EffectClasses,
  components: SpanPriors,
  labels: SpanLabels | undefined,
): SpanRatios {
  const { junctionOut, cable, junctionIn } = components;
  const ratio = chooseScale(tables, slot, classes, components);
  const { bottom, aboveJunctionIn, aboveCable, top } = tables;
  const { inward, up } = ratio;
  pass(tables, slot, classes, junctionIn, labels?.junctionIn, inward, bottom, aboveJunctionIn);
  pass(tables, slot, classes, cable, labels?.cable, up, aboveJunctionIn, aboveCable);
  pass(tables, slot, classes, junctionOut, labels?.junctionOut, up, aboveCable, top);
  return ratio;
}
