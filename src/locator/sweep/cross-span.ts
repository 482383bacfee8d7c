/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { FEED_CLASSES } from './feed-classes.js';
import { ratios, type Ratios, reachable } from './gauge.js';
import type { SpanChances, SpanPriors } from './span-chances.js';
import { EFFECTS, STATE_COUNT, STATES } from './states.js';
import type { SpanSlot, TrunkTables } from './trunk-tables.js';

/** One component, upward: `faulty` = its fault modes over the states above it, `above` = those and `ok`. */
function passUp(
  chances: SpanChances,
  ratio: Ratios,
  { at, contexts }: SpanSlot,
  below: Float64Array,
  faulty: Float64Array,
  above: Float64Array,
): void {
  const { blockEffect, ratioCell, start, above: to, below: from } = EFFECTS;
  const base = at * STATE_COUNT;
  for (let block = 0; block < blockEffect.length; block++) {
    const chance = chances.effects[blockEffect[block]!]!;
    if (chance === 0) continue;
    const cell = ratioCell[block]! * contexts;
    const end = start[block + 1]!;
    for (let i = start[block]!; i < end; i++) {
      const a = base + to[i]! * contexts;
      const b = base + from[i]! * contexts;
      if (ratio === null)
        for (let c = 0; c < contexts; c++) faulty[a + c]! += chance * below[b + c]!;
      else
        for (let c = 0; c < contexts; c++)
          faulty[a + c]! += chance * ratio[cell + c]! * below[b + c]!;
    }
  }
  for (let s = 0; s < STATE_COUNT; s++) {
    const a = base + s * contexts;
    const cell = STATES.feed[s]! * (FEED_CLASSES + 1) * contexts;
    for (let c = 0; c < contexts; c++) {
      const same = ratio === null ? 1 : ratio[cell + c]!;
      above[a + c] = faulty[a + c]! + chances.ok * same * below[a + c]!;
    }
  }
}

/** Which effect classes can occur in a span at all, as bits. */
function possibleEffects(components: readonly SpanChances[]): number {
  let set = 0;
  for (let effect = 0; effect < EFFECTS.count; effect++)
    if (components.some((chances) => chances.effects[effect]! > 0)) set |= 1 << effect;
  return set;
}

/** The ratios of a span: for the step over its junction-in, and for the two steps above that. */
export interface SpanRatios {
  readonly inward: Ratios;
  readonly up: Ratios;
}

function chooseGauge(
  tables: TrunkTables,
  { at, contexts }: SpanSlot,
  reach: readonly (readonly number[])[],
): SpanRatios {
  const { bottomGauge, topGauge } = tables;
  const base = at * FEED_CLASSES;
  for (let feed = 0; feed < FEED_CLASSES; feed++)
    for (let c = base; c < base + contexts; c++) {
      let most = -Infinity;
      for (const to of reach[feed]!) most = Math.max(most, bottomGauge[c + to * contexts]!);
      topGauge[c + feed * contexts] = most;
    }
  return {
    inward: ratios(topGauge, bottomGauge, base, contexts, reach),
    up: ratios(topGauge, topGauge, base, contexts, reach),
  };
}

/** From `bottom` to `top` of a span: over its junction-in, cable and junction-out (fault model, section 3, "View"). */
export function crossSpan(
  tables: TrunkTables,
  slot: SpanSlot,
  { junctionOut, cable, junctionIn }: SpanPriors,
): SpanRatios {
  const effects = possibleEffects([junctionOut, cable, junctionIn]);
  const ratio = chooseGauge(tables, slot, reachable(effects));
  const { bottom, aboveJunctionIn, aboveCable, top } = tables;
  passUp(junctionIn, ratio.inward, slot, bottom, tables.faultyJunctionIn, aboveJunctionIn);
  passUp(cable, ratio.up, slot, aboveJunctionIn, tables.faultyCable, aboveCable);
  passUp(junctionOut, ratio.up, slot, aboveCable, tables.faultyJunctionOut, top);
  return ratio;
}
