import type { FunctionSet } from '../../plan/functions.js';
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

/** By class of feed, what a voice that is not confused makes likely; it depends on the functions it told about alone. */
function likelihoodRows(voice: Voice, felt: FeltFeed): (disabled: FunctionSet) => Float64Array {
  const told = voice.statements.reduce((set, { func }) => set | (1 << func), 0);
  const known: (Float64Array | undefined)[] = [];
  return (disabled) => {
    const found = known[disabled & told];
    if (found) return found;
    const row = Float64Array.from({ length: FEED_CLASSES }, (_, feed) =>
      voiceLikelihood(voice, feed, disabled, felt),
    );
    known[disabled & told] = row;
    return row;
  };
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
  const table = new Float64Array(contexts * STATION_CLASS_COUNT * FEED_CLASSES).fill(1);
  for (const voice of voices) {
    const bit = voice.flag < 0 ? 0 : 1 << flags.indexOf(voice.flag);
    const rows = likelihoodRows(voice, felt);
    for (let context = 0; context < contexts; context++) {
      const headEnd = headEndDisables[context % groups] ?? 0;
      const confused = Math.floor(context / groups) & bit ? 1 : voice.confused;
      for (let k = 0; k < STATION_CLASS_COUNT; k++) {
        const row = rows(headEnd | (STATION_CLASSES[k] ?? 0));
        const at = (context * STATION_CLASS_COUNT + k) * FEED_CLASSES;
        for (let feed = 0; feed < FEED_CLASSES; feed++) {
          const clear = row[feed] ?? 0;
          const likelihood =
            confused === 0 ? clear : (1 - confused) * clear + confused * voice.ifConfused;
          table[at + feed] = (table[at + feed] ?? 0) * likelihood;
        }
      }
    }
  }
  return table;
}
