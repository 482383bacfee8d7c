/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { SpanMode } from '../../plan/modes.js';
import type { RateTables } from '../../plan/rates.js';
import { type Seen, seenChances } from './looks.js';
import type { EffectClasses } from './effect-classes.js';
import { zeroTable } from '../numbers/zero-table.js';

/** The prior of one junction or cable by effect class; and by pair of states (EffectClasses.pairs). */
export interface SpanChances {
  readonly ok: number;
  readonly effects: Float64Array;
  readonly pairs: Float64Array;
}

export function withPairs(
  ok: number,
  effects: Float64Array,
  { effectStart, pairs }: EffectClasses,
): SpanChances {
  const byPair = zeroTable(pairs.count);
  const { ofEntry } = pairs;
  for (let effect = 0; effect < effects.length; effect++) {
    const chance = effects[effect]!;
    const end = effectStart[effect + 1]!;
    for (let i = effectStart[effect]!; i < end; i++) byPair[ofEntry[i]!]! += chance;
  }
  return { ok, effects, pairs: byPair };
}

/** `metres` is 1 for a junction, whose rates are not per metre. */
export function spanChances(
  spanModes: readonly SpanMode[],
  rates: RateTables['junction'],
  metres: number,
  years: number,
  classes: EffectClasses,
  seen: Seen | null = null,
): SpanChances {
  const { ok, modes } = seenChances(
    spanModes.map((mode) => (rates[mode] ?? 0) * metres),
    years,
    seen,
  );
  const effects = zeroTable(classes.count);
  modes.forEach((chance, m) => {
    const effect = classes.ofMode[m] ?? 0;
    effects[effect] = (effects[effect] ?? 0) + chance;
  });
  return withPairs(ok, effects, classes);
}

/** The priors of one span's three components, from the top down. */
export interface SpanPriors {
  readonly junctionOut: SpanChances;
  readonly cable: SpanChances;
  readonly junctionIn: SpanChances;
}
