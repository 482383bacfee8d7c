/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { LiveColumns } from '../sweep/descend-span.js';
import type { EffectClasses } from '../sweep/effect-classes.js';
import type { StateSpace } from '../sweep/state-space.js';
import type { WeighedWays } from './merged-ways.js';
import { chanceOf, forLabels, type Passage, type Way, waysThrough } from './passages.js';

interface WeakWays {
  /** From weak to weak. */
  readonly keeps: readonly Way[];
  /** From full to weak. */
  readonly weakens: readonly Way[];
}

const WAYS = new WeakMap<EffectClasses, WeakWays[]>();

export function weakWays(space: StateSpace, classes: EffectClasses, reach: number): WeakWays {
  const known = WAYS.get(classes) ?? [];
  WAYS.set(classes, known);
  return (known[reach] ??= listWays(space, classes, reach));
}

function listWays(
  { feed, weak, reach: reachOf }: StateSpace,
  classes: EffectClasses,
  reach: number,
): WeakWays {
  const arriving = waysThrough(classes).filter(({ above, below }) => {
    const [a, b] = [feed[above]!, feed[below]!];
    return weak[b] === 1 && reachOf[a]! >= reach && reachOf[b]! >= reach;
  });
  const isWeak = ({ above }: Way) => weak[feed[above]!] === 1;
  return {
    keeps: arriving.filter(isWeak),
    weakens: arriving.filter((way) => !isWeak(way)),
  };
}

const ROWS = new WeakMap<StateSpace, Uint16Array[]>();

/** The states in which the feed is weak and what needs this reach arrives. */
export function weakRows(space: StateSpace, reach: number): Uint16Array {
  const known = ROWS.get(space) ?? [];
  ROWS.set(space, known);
  const { feed, weak, reach: reachOf } = space;
  return (known[reach] ??= Uint16Array.from({ length: space.count }, (_, s) => s).filter(
    (s) => weak[feed[s]!] === 1 && reachOf[feed[s]!]! >= reach,
  ));
}

export function meet(
  { above, below, weights }: WeighedWays<Way>,
  columns: number,
  live: Int32Array,
  down: Float64Array,
  message: Float64Array,
): number {
  let sum = 0;
  for (let w = 0; w < weights.length; w++) {
    const weight = weights[w]!;
    const a = above[w]! * columns;
    const b = below[w]! * columns;
    for (let k = 0; k < live.length; k++) {
      const c = live[k]!;
      sum += weight * down[a + c]! * message[b + c]!;
    }
  }
  return sum;
}

/** The same where scales change on the way. */
export function meetMoved(
  passage: Passage,
  ways: readonly Way[],
  live: LiveColumns,
  down: Float64Array,
  message: Float64Array,
): number {
  let sum = 0;
  for (const way of ways) {
    const chance = chanceOf(passage, way.effect);
    if (chance === 0) continue;
    const [a, b] = [way.above * passage.columns, way.below * passage.columns];
    forLabels(passage, way, chance, live, (above, below, weights) => {
      // One sum of its own for each label: what is written to from within a function is a number on the heap.
      let met = 0;
      for (let k = 0; k < live.contexts.length; k++) {
        const c = live.contexts[k]!;
        met += weights[c]! * down[a + above + c]! * message[b + below + c]!;
      }
      sum += met;
    });
  }
  return sum;
}

export function climb(
  { above, below, weights }: WeighedWays<Way>,
  columns: number,
  live: Int32Array,
  message: Float64Array,
  to: Float64Array,
): void {
  for (let w = 0; w < weights.length; w++) {
    const weight = weights[w]!;
    const a = above[w]! * columns;
    const b = below[w]! * columns;
    for (let k = 0; k < live.length; k++) {
      const c = live[k]!;
      to[a + c]! += weight * message[b + c]!;
    }
  }
}

/** The same where scales change on the way. */
export function climbMoved(
  passage: Passage,
  ways: readonly Way[],
  live: LiveColumns,
  message: Float64Array,
  to: Float64Array,
): void {
  for (const way of ways) {
    const chance = chanceOf(passage, way.effect);
    if (chance === 0) continue;
    const [a, b] = [way.above * passage.columns, way.below * passage.columns];
    forLabels(passage, way, chance, live, (above, below, weights) => {
      for (let k = 0; k < live.contexts.length; k++) {
        const c = live.contexts[k]!;
        to[a + above + c]! += weights[c]! * message[b + below + c]!;
      }
    });
  }
}
