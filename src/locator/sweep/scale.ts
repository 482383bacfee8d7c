import { exp } from '../../elementary/exp.js';
import type { EffectClasses } from './effect-classes.js';
import { zeroTable } from '../numbers/zero-table.js';

// A message's entries are likelihoods of everything below: with hundreds of observations they leave the range of
// doubles. So each context's table has a logarithm, its *scale*, and entries of the order of 1. Where what a live and a
// dead feed make likely differs beyond all reason (say, 240 works below and 240 fails above, from two different days),
// even that is not enough, and the columns (classes of feed) that fall too far below get scales of their own.
// The messages that come down carry the inverse scale, so that a product of the two is a posterior mass and never needs
// rescaling. Moving between columns multiplies by the ratio of their scales. The scale above a span is the largest that
// can reach it, so that nothing overflows.

/** A column this far (as a logarithm) below the largest keeps its own scale; doubles end at 708. */
const OWN_SCALE_BELOW = 230;

/**
 * Scales of one context's columns, given the logarithms of their largest entries: one for all, or a column's own. An
 * empty column (-Infinity) can take any.
 */
export function columnScale(log: number, largest: number): number {
  if (largest === -Infinity) return 0;
  return log === -Infinity || largest - log < OWN_SCALE_BELOW ? largest : log;
}

/** Feeds below a span that each feed above can become, given which effect classes can occur in it at all. */
function reachableFeeds(classes: EffectClasses, effects: number): number[][] {
  const { feeds, blockEffect, ratioCell } = classes;
  const next = Array.from({ length: feeds }, () => new Set<number>());
  ratioCell.forEach((cell, block) => {
    if (effects & (1 << (blockEffect[block] ?? 0)))
      next[Math.floor(cell / feeds)]?.add(cell % feeds);
  });
  const reach = Array.from({ length: feeds }, (_, feed) => new Set([feed]));
  for (const found of reach)
    for (const feed of found) for (const below of next[feed] ?? []) found.add(below);
  return reach.map((found) => [...found]);
}

const REACHABLE = new WeakMap<EffectClasses, Map<number, number[][]>>();

export function reachable(classes: EffectClasses, effects: number): readonly (readonly number[])[] {
  const ofClasses = REACHABLE.get(classes) ?? new Map<number, number[][]>();
  REACHABLE.set(classes, ofClasses);
  const known = ofClasses.get(effects) ?? reachableFeeds(classes, effects);
  ofClasses.set(effects, known);
  return known;
}

/**
 * exp(scale below - scale above) at (feedAbove * feeds + feedBelow) * contexts + context; null where all are 1.
 */
export type Ratios = Float64Array | null;

/** Ratios from the scales of two tables of one span, which start at `at` and hold `contexts` entries for each feed. */
export function ratios(
  above: Float64Array,
  below: Float64Array,
  at: number,
  contexts: number,
  reach: readonly (readonly number[])[],
): Ratios {
  const feeds = reach.length;
  let differ = false;
  for (let context = at; context < at + contexts && !differ; context++)
    for (let feed = 0; feed < feeds; feed++)
      differ ||=
        above[context + feed * contexts] !== above[at + (context - at)] ||
        below[context + feed * contexts] !== above[at + (context - at)];
  if (!differ) return null;
  const table = zeroTable(feeds * feeds * contexts);
  reach.forEach((list, feed) => {
    for (const to of list)
      for (let context = 0; context < contexts; context++) {
        const logScale = above[at + feed * contexts + context] ?? 0;
        const from = below[at + to * contexts + context] ?? 0;
        table[(feed * feeds + to) * contexts + context] = exp(from - logScale);
      }
  });
  return table;
}
