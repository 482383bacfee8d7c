import type { FunctionSet } from '../model/functions.js';
import { FEED_CLASSES, REACH, REACH_NEEDED, WEAK } from './feed-classes.js';
import { STATION_CLASS_COUNT, STATION_CLASSES } from './station-classes.js';
import type { Voice } from './voices.js';

/** Condition of a function at a station: 0 good, 1 weak, 2 dead (fault model, section 3). */
export function conditionOf(func: number, feed: number, disabled: FunctionSet): 0 | 1 | 2 {
  if (disabled & (1 << func) || (REACH[feed] ?? 0) < (REACH_NEEDED[func] ?? 0)) return 2;
  return WEAK[feed] ? 1 : 0;
}

/** The class of feed at a node in one sitting, given the class that arrives when nothing comes and goes. */
export type FeltFeed = (sitting: number, feed: number) => number;

const AS_IT_ARRIVES: FeltFeed = (_, feed) => feed;

function voiceLikelihood(
  voice: Voice,
  feed: number,
  disabled: FunctionSet,
  felt: FeltFeed,
): number {
  let product = 1;
  for (const { func, likelihood, sitting } of voice.statements)
    product *= likelihood[conditionOf(func, felt(sitting, feed), disabled)];
  return product;
}

/**
 * P(what is known at one node | context, class of the station's mode, class of its feed), at
 * (context * STATION_CLASS_COUNT + class) * FEED_CLASSES + feed. `flags` are those open at the node.
 */
export function nodeLikelihood(
  voices: readonly Voice[],
  headEndDisables: readonly FunctionSet[],
  flags: readonly number[],
  felt: FeltFeed = AS_IT_ARRIVES,
): Float64Array {
  const groups = headEndDisables.length;
  const contexts = groups << flags.length;
  const bits = voices.map((voice) => (voice.flag < 0 ? 0 : 1 << flags.indexOf(voice.flag)));
  const table = new Float64Array(contexts * STATION_CLASS_COUNT * FEED_CLASSES);
  let at = 0;
  for (let context = 0; context < contexts; context++) {
    const set = Math.floor(context / groups);
    const headEnd = headEndDisables[context % groups] ?? 0;
    for (const station of STATION_CLASSES)
      for (let feed = 0; feed < FEED_CLASSES; feed++) {
        let product = 1;
        voices.forEach((voice, v) => {
          const confused = set & (bits[v] ?? 0) ? 1 : voice.confused;
          product *=
            confused === 0
              ? voiceLikelihood(voice, feed, headEnd | station, felt)
              : (1 - confused) * voiceLikelihood(voice, feed, headEnd | station, felt) +
                confused * voice.ifConfused;
        });
        table[at++] = product;
      }
  }
  return table;
}
