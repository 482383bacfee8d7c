/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { LiveColumns } from '../sweep/descend-span.js';
import type { EffectClasses } from '../sweep/effect-classes.js';
import type { StateSpace } from '../sweep/state-space.js';
import { rowColumns, liveIn, weighedWays, type WeighedWays } from './merged-ways.js';
import { chanceOf, forLabels, type Passage, type Way, waysThrough } from './passages.js';

const LOWERING = new WeakMap<EffectClasses, readonly Way[]>();

/** The ways on which something that arrives above does not arrive below. */
function lowering({ reach, feed }: StateSpace, classes: EffectClasses): readonly Way[] {
  const known =
    LOWERING.get(classes) ??
    waysThrough(classes).filter(({ above, below }) => reach[feed[above]!]! > reach[feed[below]!]!);
  LOWERING.set(classes, known);
  return known;
}

/**
 * Posterior mass in which what needs a reach arrives above a component and not below it, at from + (reach - 1) * groups +
 * head-end group: then the component is what takes it from everybody further down.
 *
 * @param down the message above the component, by state and column
 */
export function addTaken(
  space: StateSpace,
  classes: EffectClasses,
  passage: Passage,
  live: LiveColumns,
  groups: number,
  down: Float64Array,
  taken: Float64Array,
  from: number,
): void {
  const ways = lowering(space, classes);
  const merged = weighedWays(passage, ways);
  if (merged) addMerged(space, passage, merged, liveIn(merged, live), groups, down, taken, from);
  else addScaled(space, passage, ways, live, groups, down, taken, from);
}

function addMerged(
  { reach: reachOf, feed }: StateSpace,
  passage: Passage,
  merged: WeighedWays<Way>,
  visited: Int32Array,
  groups: number,
  down: Float64Array,
  taken: Float64Array,
  from: number,
): void {
  const { below, base } = passage;
  const { ways, weights, above: rowsAbove, below: rowsBelow } = merged;
  const columns = rowColumns(merged, passage);
  for (let w = 0; w < weights.length; w++) {
    const chance = weights[w]!;
    if (chance === 0) continue;
    const { above, below: under } = ways[w]!;
    const first = from + reachOf[feed[under]!]! * groups;
    const end = from + reachOf[feed[above]!]! * groups;
    const a = rowsAbove[w]! * columns;
    const b = base + rowsBelow[w]! * columns;
    for (let k = 0; k < visited.length; k++) {
      const c = visited[k]!;
      const mass = chance * down[a + c]! * below[b + c]!;
      const group = columns === groups ? c : c % groups;
      for (let at = first; at < end; at += groups) taken[at + group]! += mass;
    }
  }
}

/** The same where scales change on the way. */
function addScaled(
  { reach: reachOf, feed }: StateSpace,
  passage: Passage,
  ways: readonly Way[],
  live: LiveColumns,
  groups: number,
  down: Float64Array,
  taken: Float64Array,
  from: number,
): void {
  const { below, base, columns } = passage;
  for (const way of ways) {
    const chance = chanceOf(passage, way.effect);
    if (chance === 0) continue;
    const least = reachOf[feed[way.below]!]!;
    const most = reachOf[feed[way.above]!]!;
    const a = way.above * columns;
    const b = base + way.below * columns;
    forLabels(passage, way, chance, live, (up, low, shares) => {
      for (let k = 0; k < live.contexts.length; k++) {
        const c = live.contexts[k]!;
        const mass = shares[c]! * down[a + up + c]! * below[b + low + c]!;
        const at = from + (c % groups);
        for (let reach = least; reach < most; reach++) taken[at + reach * groups]! += mass;
      }
    });
  }
}
