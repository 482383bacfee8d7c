/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { SpanChances } from '../sweep/span-chances.js';
import type { Passage, Way } from './passages.js';

/**
 * Ways through a component that lead from one row above to one row below, whatever the effect, as one: nearly all
 * components change neither scales nor labels, and then each is one sparse matrix.
 */
export interface MergedWays<W extends Way> {
  /** One way of each. */
  readonly ways: readonly W[];
  readonly above: Uint16Array;
  readonly below: Uint16Array;
  /** Which of them each way is, and its effect. */
  readonly of: Uint32Array;
  readonly effect: Uint8Array;
}

const MERGED = new WeakMap<readonly Way[], MergedWays<Way>>();

/** @param ways the same list each time: what is made of it is remembered */
export function mergedWays<W extends Way>(ways: readonly W[]): MergedWays<W> {
  const known = (MERGED.get(ways) as MergedWays<W> | undefined) ?? merge(ways);
  MERGED.set(ways, known);
  return known;
}

function merge<W extends Way>(ways: readonly W[]): MergedWays<W> {
  const keys = ways.map((way) =>
    'from' in way
      ? JSON.stringify([way.above, way.below, way.from, 'to' in way && way.to, way.shorts])
      : `${way.above} ${way.below}`,
  );
  const distinct = new Map<string, number>();
  const first: W[] = [];
  keys.forEach((key, w) => {
    if (!distinct.has(key)) distinct.set(key, first.push(ways[w]!) - 1);
  });
  return {
    ways: first,
    above: Uint16Array.from(first, ({ above }) => above),
    below: Uint16Array.from(first, ({ below }) => below),
    of: Uint32Array.from(keys, (key) => distinct.get(key)!),
    effect: Uint8Array.from(ways, ({ effect }) => effect),
  };
}

const WEIGHTS = new WeakMap<SpanChances, Map<MergedWays<Way>, Float64Array>>();

/** The chance of each of the merged ways; null where labels or scales change on the way. */
export function weightsOf(
  { chances, moves, ratio }: Passage,
  merged: MergedWays<Way>,
): Float64Array | null {
  if (moves || ratio !== null) return null;
  const ofChances = WEIGHTS.get(chances) ?? new Map<MergedWays<Way>, Float64Array>();
  WEIGHTS.set(chances, ofChances);
  const known = ofChances.get(merged) ?? weigh(chances, merged);
  ofChances.set(merged, known);
  return known;
}

function weigh({ ok, effects }: SpanChances, { ways, of, effect }: MergedWays<Way>): Float64Array {
  const weights = new Float64Array(ways.length);
  for (let i = 0; i < of.length; i++)
    weights[of[i]!]! += effect[i]! === effects.length ? ok : effects[effect[i]!]!;
  return weights;
}
