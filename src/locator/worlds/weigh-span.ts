/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ln } from '../../elementary/ln.js';
import { FEED_CLASSES } from './default-system.js';
import type { SpanChances } from '../sweep/span-chances.js';
import type { NamedFault } from './named-fault.js';
import { FEED_AFTER, HIDES_OF, SHORTABLE, SHORTS_OF } from './span-effects.js';
import { ordinaryChance, type WorldTrunk } from './world-trunk.js';

interface SpanWeight {
  /** NaN if what is named makes no difference here. */
  log: number;
  /** Class of feed at the span's node, and the cores whose short there does not matter. */
  feed: number;
  hidden: number;
}

const IMPOSSIBLE: SpanWeight = { log: NaN, feed: 0, hidden: 0 };

/**
 * The share of a span on which nothing is named: thousands of worlds ask the same, so that it is remembered. `shortBelow` as of
 * {@link weighSpan}.
 */
export function unnamedSpanLog(
  { model, relevance, unnamed }: WorldTrunk,
  n: number,
  given: { group: number; feed: number; hidden: number; shortBelow: boolean },
): number {
  const { group, feed, hidden, shortBelow } = given;
  const known = (unnamed[n * model.isPowerless.length + group] ??= new Float64Array(
    FEED_CLASSES * (SHORTABLE + 1) * 2,
  ).fill(NaN));
  const at = (feed * (SHORTABLE + 1) + hidden) * 2 + (shortBelow ? 1 : 0);
  if (Number.isNaN(known[at])) {
    let product = 1;
    for (const part of [model.junctionOut[n]!, model.cable[n]!, model.junctionIn[n]!])
      product *= shortBelow ? part.ok : ordinaryChance(part, relevance, group, feed, hidden);
    known[at] = ln(product);
  }
  return known[at]!;
}

/**
 * One span's share of a world's weight. Where a short is named further down, what is between it and the port carries
 * everything: `shortBelow`.
 */
export function weighSpan(
  { model, relevance }: WorldTrunk,
  n: number,
  fault: Extract<NamedFault, { at: 'span' }>,
  given: { group: number; feed: number; hidden: number; isBeyond: boolean; shortBelow: boolean },
): SpanWeight {
  const { group, feed, hidden, shortBelow } = given;
  const parts = [model.junctionOut[n]!, model.cable[n]!, model.junctionIn[n]!];
  const chance = (part: SpanChances, ok: boolean, at: number, hides: number) =>
    ok ? part.ok : ordinaryChance(part, relevance, group, at, hides);
  const { effect, component } = fault;
  const shorts = SHORTS_OF[effect]!;
  const after = FEED_AFTER[effect * FEED_CLASSES + feed]!;
  const at = group * FEED_CLASSES;
  const isAlike = relevance.alike[at + after] === relevance.alike[at + feed];
  if (shorts ? shorts & hidden : given.isBeyond || isAlike) return IMPOSSIBLE;
  const hides = hidden | HIDES_OF[effect]!;
  let total = 0;
  for (let k = 0; k < parts.length; k++) {
    if (component !== null && component !== k) continue;
    let product = parts[k]!.effects[effect]!;
    for (let j = 0; j < parts.length; j++) {
      if (j < k) product *= chance(parts[j]!, shortBelow || shorts !== 0, feed, hidden);
      if (j > k) product *= chance(parts[j]!, shortBelow, after, hides);
    }
    total += product;
  }
  return { log: ln(total), feed: after, hidden: hides };
}
