/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ALL_CORES } from '../../plan/cores.js';
import type { SeriesPart } from './component-priors.js';
import { WEAK_FEED } from './run-effects.js';
import { zeroTable } from '../numbers/zero-table.js';

/**
 * What one component can do, as chances in a row: nothing; part all cores; open one of four; short one of three; weaken.
 * OPEN and SHORT are the first of their cores, by bit.
 */
export const ACT_COUNT = 10;
export const OK = 0;
export const PARTED = 1;
export const OPEN = 2;
export const SHORT = 6;
export const WEAKENED = 9;

function actOf(effect: number): number {
  const removed = effect & ALL_CORES;
  if (removed === ALL_CORES) return PARTED;
  if (removed > 0) return OPEN + 31 - Math.clz32(removed);
  return effect & WEAK_FEED ? WEAKENED : SHORT + 31 - Math.clz32(effect >> 5);
}

/** What one component does with which chance, by act. */
export function componentActs(
  ok: number,
  effects: readonly number[],
  chances: readonly number[],
): Float64Array {
  const acts = zeroTable(ACT_COUNT);
  acts[OK] = ok;
  effects.forEach((effect, m) => (acts[actOf(effect)]! += chances[m]!));
  return acts;
}

/** The chances of components in series, at part * ACT_COUNT + act. */
export function seriesActs(
  groups: readonly { readonly parts: readonly SeriesPart[] }[],
): Float64Array {
  const count = groups.reduce((sum, { parts }) => sum + parts.length, 0);
  const acts = zeroTable(count * ACT_COUNT);
  let at = 0;
  for (const { parts } of groups)
    for (const part of parts) {
      acts.set(part.acts, at);
      at += ACT_COUNT;
    }
  return acts;
}
