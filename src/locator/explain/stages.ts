/* eslint-disable @typescript-eslint/no-non-null-assertion -- loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { contextMap } from '../sweep/contexts.js';
import type { ConfusionFlag } from '../sweep/voices.js';
import type { Hub } from './hubs.js';

/**
 * One step of the search: a hub whose state is chosen gets the states of the hubs below it chosen, one after another.
 * Its *contexts* are settings of all flags that are open then: the hub's, and those of the hubs that wait.
 */
export interface Stage {
  readonly hub: number;
  readonly below: readonly number[];
  /** By context: that of the step before, and log of the prior of the flags that open here. */
  readonly before: Int32Array;
  readonly opened: Float64Array;
  /** By context: that over the hub's inner flags, and that over the flags of each hub below. */
  readonly hubContext: Int32Array;
  readonly contextBelow: readonly Int32Array[];
  /** Whether nothing is below each hub below: such a one never waits. */
  readonly isLast: readonly boolean[];
  /** Hubs that wait meanwhile, the next first, and their contexts. */
  readonly waiting: readonly number[];
  readonly waitingContext: readonly Int32Array[];
  /** By context: that of the next step; and how many that has. */
  readonly after: Int32Array;
  readonly contextsAfter: number;
}

const ascending = (flags: Iterable<number>) => [...new Set(flags)].sort((a, b) => a - b);

function priorOfNew(
  open: readonly number[],
  known: readonly number[],
  flags: readonly ConfusionFlag[],
): Float64Array {
  return Float64Array.from({ length: 1 << open.length }, (_, context) =>
    open.reduce((log, flag, position) => {
      if (known.includes(flag)) return log;
      const { confused } = flags[flag]!;
      return log + Math.log((context >> position) & 1 ? confused : 1 - confused);
    }, 0),
  );
}

/** The steps in their order, the last hub that began to wait first. The first one is the site's, with one context. */
export function planStages(hubs: readonly Hub[], flags: readonly ConfusionFlag[]): Stage[] {
  const stages: Stage[] = [];
  let known: readonly number[] = [];
  let stack: readonly number[] = [0];
  for (let [hub] = stack; hub !== undefined; hub = stack[0]) {
    const waiting = stack.slice(1);
    const { inner, below } = hubs[hub]!;
    const outer = (h: number) => hubs[h]!.outer;
    const open = ascending([...inner, ...waiting.flatMap(outer)]);
    const isLast = below.map((h) => hubs[h]!.below.length === 0);
    stack = [...below.filter((_, j) => !isLast[j]).reverse(), ...waiting];
    const next = ascending(stack.flatMap(outer));
    stages.push({
      hub,
      below,
      before: contextMap(1, open, known),
      opened: priorOfNew(open, known, flags),
      hubContext: contextMap(1, open, inner),
      contextBelow: below.map((h) => contextMap(1, open, outer(h))),
      isLast,
      waiting,
      waitingContext: waiting.map((h) => contextMap(1, open, outer(h))),
      after: contextMap(1, open, next),
      contextsAfter: 1 << next.length,
    });
    known = next;
  }
  return stages;
}
