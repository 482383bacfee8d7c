/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { LiveColumns } from '../sweep/descend-span.js';
import { joined } from '../sweep/join.js';
import { productWith } from '../sweep/split-join.js';
import type { EffectClasses } from '../sweep/effect-classes.js';
import type { StateSpace } from '../sweep/state-space.js';
import type { SweptSite } from '../sweep/sweep-site.js';
import { mergedWays, weightsOf } from './merged-ways.js';
import {
  chanceOf,
  forColumns,
  type Passage,
  passagesInto,
  type Way,
  waysThrough,
} from './passages.js';
import type { Point } from './point.js';

// The first bad joint on the way to a point: a message goes up from the point alone, in worlds in which the function is
// weak there, and over weak feeds only. Where it meets a full feed from above at a bad joint, that is the first.

interface WeakWays {
  /** From weak to weak. */
  readonly keeps: readonly Way[];
  /** From full to weak. */
  readonly weakens: readonly Way[];
}

const WAYS = new WeakMap<EffectClasses, WeakWays[]>();

function weakWays(space: StateSpace, classes: EffectClasses, reach: number): WeakWays {
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

/**
 * Posterior masses in which each component of the spans on the way to a point is the first bad joint of a function that is
 * only weak there: by node on the way, three components from the top down.
 */
export function weakCauses(
  swept: SweptSite,
  point: Point,
  working: Float64Array,
): Map<number, Float64Array> {
  const up = swept.sweeps[point.trunk]!;
  const { model, tables } = up;
  const { along } = swept.trunks[point.trunk]!;
  const reach = model.system.feedClasses.reachNeeded[point.func]!;
  const ways = weakWays(model.space, model.effects, reach);
  const found = new Map<number, Float64Array>();
  let message = fromStation(swept, point, working);
  for (let n = point.node; n >= 0; n = model.tree.parent[n]!) {
    const span = tables.spans[n]!;
    const live = { columns: swept.live(span.columns), contexts: swept.live(span.contexts) };
    const top = tables.down.subarray(
      span.at * model.space.count,
      (span.at + span.columns) * model.space.count,
    );
    const downs = [top, along[n]!.overCable, along[n]!.overJunctionIn];
    const masses = new Float64Array(3);
    const passages = passagesInto(up, n);
    for (let part = 2; part >= 0; part--) {
      const passage = passages[part]!;
      masses[part] = meet(passage, ways.weakens, live, downs[part]!, message);
      message = climb(model.space.count, passage, ways.keeps, live, message);
    }
    found.set(n, masses);
    const parent = model.tree.parent[n]!;
    if (parent >= 0) message = throughNode(swept, point.trunk, parent, n, message);
  }
  return found;
}

/** The message at the bottom of the span into the point's node. */
function fromStation(
  swept: SweptSite,
  { trunk, node, func }: Point,
  working: Float64Array,
): Float64Array {
  const { model, tables } = swept.sweeps[trunk]!;
  const { at, contexts } = tables.nodes[node]!;
  const { classes } = model.station[node]!;
  const likelihood = model.likelihood[node]?.table ?? null;
  const { feeds, weak, reach } = model.space;
  const { feedClasses, stationClasses } = model.system;
  const gain = new Float64Array(feeds * contexts);
  for (let i = 0; i < gain.length; i++) {
    const [feed, context] = [Math.floor(i / contexts), i % contexts];
    if (!weak[feed] || reach[feed]! < feedClasses.reachNeeded[func]!) continue;
    if (working[context % working.length] === 0) continue;
    const row = context * stationClasses.count * feeds + feed;
    for (let k = 0; k < stationClasses.count; k++)
      if (!(stationClasses.disables[k]! & (1 << func)))
        gain[i]! += classes[k]! * (likelihood ? likelihood[row + k * feeds]! : 1);
    gain[i]! *= tables.scale[at * feeds + i]!;
  }
  const { join } = swept.sweeps[trunk]!.nodes[node]!;
  return bottomOf(swept, trunk, node, joined(join), gain, 0);
}

/** From a table of the joined spans below a node to the bottom of the span above, over weak feeds. */
function bottomOf(
  swept: SweptSite,
  trunk: number,
  node: number,
  { table, at: start, stride, step, map }: ReturnType<typeof joined>,
  gain: Float64Array,
  gainAt: number,
): Float64Array {
  const { tables, nodes } = swept.sweeps[trunk]!;
  const above = tables.spans[node]!;
  const { contexts } = tables.nodes[node]!;
  const { keep, spanContext } = nodes[node]!;
  const { space } = tables;
  const bottom = new Float64Array(space.count * above.columns);
  const live = swept.live(contexts);
  for (let s = 0; s < space.count; s++) {
    const feed = space.feed[s]!;
    if (!space.weak[feed]) continue;
    for (let m = 0; m < keep.weight.length; m++) {
      const to = s * above.columns + keep.to[m]! * above.contexts;
      const from = start + s * stride + keep.from[m]! * step;
      for (const c of live)
        bottom[to + spanContext[c]!]! +=
          keep.weight[m]! * table[from + map[c]!]! * gain[gainAt + feed * contexts + c]!;
    }
  }
  return bottom;
}

/** The message at the top of the span into `child`, up through the node that feeds it. */
function throughNode(
  swept: SweptSite,
  trunk: number,
  node: number,
  child: number,
  message: Float64Array,
): Float64Array {
  const { model, tables, nodes } = swept.sweeps[trunk]!;
  const k = model.tree.children[node]!.indexOf(child);
  const product = productWith(tables, nodes[node]!.join, k, message);
  return bottomOf(
    swept,
    trunk,
    node,
    product,
    tables.gain,
    tables.nodes[node]!.at * model.space.feeds,
  );
}

function meet(
  passage: Passage,
  ways: readonly Way[],
  live: LiveColumns,
  down: Float64Array,
  message: Float64Array,
): number {
  let sum = 0;
  const merged = mergedWays(ways);
  const weights = weightsOf(passage, merged);
  for (let w = 0; weights && w < weights.length; w++) {
    const [a, b] = [merged.above[w]! * passage.columns, merged.below[w]! * passage.columns];
    for (let k = 0; k < live.columns.length; k++)
      sum += weights[w]! * down[a + live.columns[k]!]! * message[b + live.columns[k]!]!;
  }
  if (weights) return sum;
  for (const way of ways) {
    const chance = chanceOf(passage, way.effect);
    if (chance === 0) continue;
    const [a, b] = [way.above * passage.columns, way.below * passage.columns];
    forColumns(passage, way, chance, live, (above, below, weight) => {
      sum += weight * down[a + above]! * message[b + below]!;
    });
  }
  return sum;
}

function climb(
  states: number,
  passage: Passage,
  ways: readonly Way[],
  live: LiveColumns,
  message: Float64Array,
): Float64Array {
  const { columns } = passage;
  const above = new Float64Array(states * columns);
  const merged = mergedWays(ways);
  const weights = weightsOf(passage, merged);
  for (let w = 0; weights && w < weights.length; w++) {
    const [a, b] = [merged.above[w]! * columns, merged.below[w]! * columns];
    for (let k = 0; k < live.columns.length; k++)
      above[a + live.columns[k]!]! += weights[w]! * message[b + live.columns[k]!]!;
  }
  if (weights) return above;
  for (const way of ways) {
    const chance = chanceOf(passage, way.effect);
    if (chance === 0) continue;
    const [a, b] = [way.above * columns, way.below * columns];
    forColumns(passage, way, chance, live, (up, low, weight) => {
      above[a + up]! += weight * message[b + low]!;
    });
  }
  return above;
}
