/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { SweptStations } from '../sweep/sweep-site.js';
import { type AtPort, atPort } from './at-port.js';
import { Largest } from './largest.js';
import { passagesInto } from './passages.js';
import { leftWorking, type Point } from './point.js';
import { addTaken } from './taken.js';
import { type HeldShorts, heldShorts, noShorts } from './visible-shorts.js';
import { zeroTable } from '../numbers/zero-table.js';

export const MOST_CAUSES = 20;

/** A cause less likely than this is not looked into: an answer is to nine digits. */
export const NOT_IN_QUESTION = 1e-12;

/** Of a way without points the list is kept at every so many nodes: ways to several points begin alike. */
const KEPT_EVERY = 16;

/** Points of one trunk that need the same to arrive and that the same of the head-end's modes silence share their causes. */
export interface ClassMasses {
  readonly points: readonly Point[];
  readonly working: Float64Array;
  /** Posterior masses. */
  readonly noOutput: number;
  readonly short: number;
  /** By node: the span and the station hold such a short, and it is the cause. */
  readonly shortSpans: Float64Array;
  readonly shortStations: Float64Array;
  /** By node * 3 + component, on the way to points: it takes what they need. */
  readonly taken: Float64Array;
}

/** The same with the causes in order. */
export interface PointClass extends ClassMasses {
  /** Of a node on the way: the likeliest of the components from the port to there, by node * 3 + component. */
  readonly likeliest: (node: number) => Largest;
}

/** What takes each reach from everybody below, at (node * 3 + component) * 3 * groups + (reach - 1) * groups + group. */
function takenOnTheWay(swept: SweptStations, trunk: number): Float64Array {
  const up = swept.sweeps[trunk]!;
  const { along } = swept.trunks[trunk]!;
  const groups = swept.site.headEnd.count;
  const each = swept.site.system.feedClasses.most * groups;
  const { space } = up.model;
  const taken = zeroTable(up.model.tree.count * 3 * each);
  for (const [n, messages] of along.entries()) {
    if (!messages) continue;
    const span = up.tables.spans[n]!;
    const live = { columns: swept.live(span.columns), contexts: swept.live(span.contexts) };
    const from = span.at * space.count;
    const top = up.tables.down.subarray(from, from + span.columns * space.count);
    const downs = [top, messages.overCable, messages.overJunctionIn];
    for (const [part, passage] of passagesInto(up, n).entries())
      addTaken(
        space,
        up.model.effects,
        passage,
        live,
        groups,
        downs[part]!,
        taken,
        (n * 3 + part) * each,
      );
  }
  return taken;
}

/** The sum of a table by head-end group over those that leave a function working. */
function sumWorking(table: Float64Array, at: number, working: Float64Array): number {
  let sum = 0;
  for (let g = 0; g < working.length; g++) sum += working[g]! * table[at + g]!;
  return sum;
}

export function classMasses(
  swept: SweptStations,
  trunk: number,
  points: readonly Point[],
): ClassMasses[] {
  const groups = swept.site.headEnd.count;
  const { reachNeeded, shortableByReach } = swept.site.system.feedClasses;
  const port = atPort(swept.sweeps[trunk]!, swept.masses.logWeights[trunk]!, groups);
  const taken = takenOnTheWay(swept, trunk);
  const held = new Map<number, HeldShorts>();
  const classes = new Map<string, { reach: number; working: Float64Array; points: Point[] }>();
  for (const point of points) {
    const reach = reachNeeded[point.func]!;
    const working = leftWorking(swept, point);
    const key = `${reach} ${working.join()}`;
    const known = classes.get(key) ?? { reach, working, points: [] };
    classes.set(key, known);
    known.points.push(point);
  }
  return [...classes.values()].map(({ reach, working, points: alike }) => {
    const inQuestion = sumWorking(port.short, (reach - 1) * groups, working) > NOT_IN_QUESTION;
    const shorts =
      held.get(reach) ??
      (inQuestion ? heldShorts(swept, trunk, shortableByReach[reach]!) : noShorts(swept, trunk));
    if (inQuestion) held.set(reach, shorts);
    return massesOf(swept, trunk, { reach, working, points: alike }, port, taken, shorts);
  });
}

/** By node, 1 on the way to a point. */
function wayTo(points: readonly Point[], parent: ArrayLike<number>, count: number): Uint8Array {
  const isOnTheWay = new Uint8Array(count);
  for (const { node } of points)
    for (let n = node; n >= 0 && !isOnTheWay[n]; n = parent[n]!) isOnTheWay[n] = 1;
  return isOnTheWay;
}

function massesOf(
  swept: SweptStations,
  trunk: number,
  { reach, working, points }: { reach: number; working: Float64Array; points: Point[] },
  port: AtPort,
  takenByReach: Float64Array,
  held: HeldShorts,
): ClassMasses {
  const { tree, system } = swept.sweeps[trunk]!.model;
  const groups = working.length;
  const isOnTheWay = wayTo(points, tree.parent, tree.count);
  const taken = zeroTable(tree.count * 3);
  const byNode = (table: Float64Array) => {
    const sums = zeroTable(tree.count);
    for (let n = 0; n < tree.count; n++) sums[n] = sumWorking(table, n * groups, working);
    return sums;
  };
  for (let key = 0; key < taken.length; key++) {
    if (!isOnTheWay[Math.floor(key / 3)]) continue;
    const at = (key * system.feedClasses.most + reach - 1) * groups;
    taken[key] = sumWorking(takenByReach, at, working);
  }
  return {
    points,
    working,
    noOutput: sumWorking(port.noOutput, 0, working),
    short: sumWorking(port.short, (reach - 1) * groups, working),
    shortSpans: byNode(held.spans),
    shortStations: byNode(held.stations),
    taken,
  };
}

export function pointClasses(
  swept: SweptStations,
  trunk: number,
  points: readonly Point[],
): PointClass[] {
  const { parent } = swept.site.trunks[trunk]!.tree;
  return classMasses(swept, trunk, points).map((masses) => {
    const known: (Largest | undefined)[] = [];
    const likeliest = (node: number): Largest => {
      const way: number[] = [];
      let above = node;
      for (; above >= 0 && !known[above]; above = parent[above]!) way.push(above);
      const list = known[above]?.copy() ?? new Largest(MOST_CAUSES);
      for (const [step, n] of way.reverse().entries()) {
        for (let key = n * 3; key < n * 3 + 3; key++) list.add(key, masses.taken[key]!);
        if (step % KEPT_EVERY === 0) known[n] = list.copy();
      }
      return (known[node] ??= list);
    };
    return { ...masses, likeliest };
  });
}
