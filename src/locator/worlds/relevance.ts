import { ALL_CORES, type CoreSet } from '../../plan/cores.js';
import type { FunctionSet } from '../../plan/functions.js';
import { FEED_CLASSES, FEEDS, PLAN } from './default-system.js';
import type { HeadEndGroups } from '../sweep/head-end-groups.js';
import { conditionOf } from '../sweep/node-likelihood.js';

/** Which feeds and cores make a difference to anything that evidence speaks of, by group of the head-end. */
export interface Relevance {
  /** At group * FEED_CLASSES + class: feeds with one number are as good as one another. */
  readonly alike: Int32Array;
  /** By group: cores whose loss nothing shows. */
  readonly spareCores: Uint8Array;
}

/** Functions that a feed of each class can serve. */
export const SERVED_BY = Uint8Array.from({ length: FEED_CLASSES }, (_, feed) =>
  PLAN.functions.reduce(
    (set, __, func) =>
      (FEEDS.reach[feed] ?? 0) >= (FEEDS.reachNeeded[func] ?? 0) ? set | (1 << func) : set,
    0,
  ),
);

/** The class of a feed once these cores are off it. */
export function feedWithout(feed: number, cores: CoreSet): number {
  return FEEDS.without(feed, cores);
}

/** What a group disables at every station; another function may still work in some zone. */
export function disabledEverywhere({ disables }: HeadEndGroups, group: number): FunctionSet {
  return disables.reduce((all, own) => all & (own[group] ?? 0), PLAN.allFunctions);
}

/** `spokenOf`: the functions with evidence anywhere. */
export function relevance(headEnd: HeadEndGroups, spokenOf: FunctionSet): Relevance {
  const alike = new Int32Array(headEnd.count * FEED_CLASSES);
  const spareCores = new Uint8Array(headEnd.count);
  const full = FEEDS.of(ALL_CORES, false);
  headEnd.chance.forEach((_, group) => {
    const disabled = disabledEverywhere(headEnd, group);
    for (let feed = 0; feed < FEED_CLASSES; feed++) {
      let code = 0;
      for (let func = 0; func < PLAN.functions.length; func++)
        if (spokenOf & (1 << func)) code = code * 3 + conditionOf(FEEDS, func, feed, disabled);
      alike[group * FEED_CLASSES + feed] = code;
    }
    const at = group * FEED_CLASSES;
    PLAN.coreBits.forEach((core) => {
      const isSpare = alike[at + feedWithout(full, core)] === alike[at + full];
      if (isSpare && FEEDS.shortable & core) spareCores[group] = (spareCores[group] ?? 0) | core;
    });
  });
  return { alike, spareCores };
}
