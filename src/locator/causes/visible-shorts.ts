/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { type CoreSet, SUPPLY } from '../../plan/cores.js';
import { DEAD_STATES, type NodeJoin, SHORTED } from '../sweep/cross-node.js';
import { FEED_CLASSES } from '../sweep/feed-classes.js';
import { type Join, joined, joinedGauge, splitInto } from '../sweep/join.js';
import type { LiveColumns } from '../sweep/descend-span.js';
import { MOST_LOG, portFeeds } from '../sweep/port.js';
import { STATE_COUNT, STATES } from '../sweep/states.js';
import type { SweptSite } from '../sweep/sweep-site.js';
import type { UpwardSweep } from '../sweep/sweep-trunk.js';
import type { NodeSlot, SpanSlot, TrunkTables } from '../sweep/trunk-tables.js';
import { chanceOf, forColumns, isPlain, type Passage, passagesInto } from './passages.js';
import { type VisibleWay, visibleWays } from './visible-ways.js';

// A second message comes down beside the plain one, in worlds alone in which a short is seen from the port, and
// split by the cores (`seen`) of shorts at or below the point that are seen from there. A short's place is where the
// message meets an effect that shorts such a core. Where nothing more is seen, the message ends.

/** By `seen` - 1, a table of the plain kind, one after another. */
type SeenTables = Float64Array;

const noTables = (cores: CoreSet, size: number): SeenTables => new Float64Array(cores * size);

/** Posterior masses by head-end group, at node * groups + group, in which a place holds such a short. */
export interface HeldShorts {
  readonly spans: Float64Array;
  readonly stations: Float64Array;
}

interface Descent {
  readonly up: UpwardSweep;
  readonly cores: CoreSet;
  readonly groups: number;
  readonly held: HeldShorts;
  readonly live: SweptSite['live'];
  readonly scratch: ReturnType<typeof scratchMessages>;
  /** The message at the top of each span; undefined where it has not come. */
  readonly tops: (SeenTables | undefined)[];
}

/** Where the shorts of `cores` are that are seen from the port of a trunk. */
export function heldShorts(swept: SweptSite, trunk: number, cores: CoreSet): HeldShorts {
  const up = swept.sweeps[trunk]!;
  const groups = swept.site.headEnd.count;
  const { tree } = up.model;
  const held = {
    spans: new Float64Array(tree.count * groups),
    stations: new Float64Array(tree.count * groups),
  };
  const tops = new Array<SeenTables | undefined>(tree.count);
  const scratch = scratchMessages();
  const descent: Descent = { up, cores, groups, held, live: swept.live, scratch, tops };
  const { join } = up.port;
  passToSpans(descent, join, tree.first, fromPort(descent, swept.masses.logWeights[trunk]!));
  for (let n = 0; n < tree.count; n++) {
    const top = tops[n];
    if (!top) continue;
    tops[n] = undefined;
    const bottom = throughSpan(descent, n, top);
    if (bottom) throughNode(descent, n, bottom);
  }
  return held;
}

function fromPort({ up, cores }: Descent, logWeights: Float64Array): SeenTables {
  const { model, tables, port } = up;
  const { join, siteContext, closing, labelWeight, logFlat } = port;
  const { labels } = joined(join);
  const whole = noTables(cores, labels * join.contexts * STATE_COUNT);
  for (let c = 0; c < join.contexts; c++) {
    const weight = logWeights[siteContext[c]!]!;
    if (weight === -Infinity) continue;
    for (let s = 0; s < STATE_COUNT; s++) {
      const seen = STATES.view[s]! & cores;
      if (seen === 0) continue;
      const gauge = joinedGauge(tables, join, c, STATES.feed[s]!);
      const mass =
        Math.exp(Math.min(weight + logFlat + gauge, MOST_LOG)) *
        closing[c]! *
        portFeeds(model, s, c % model.plan.groups).ok;
      for (let l = 0; l < labels; l++)
        whole[(((seen - 1) * STATE_COUNT + s) * labels + l) * join.contexts + c] =
          labelWeight[l]! * mass;
    }
  }
  return whole;
}

/** The message down to joined spans goes on to each of them, with what of it is seen there. */
function passToSpans(
  { up: { tables }, cores, tops }: Descent,
  join: Join,
  children: readonly number[],
  whole: SeenTables,
): void {
  const size = whole.length / cores;
  for (let seen = 1; seen <= cores; seen++) {
    const table = whole.subarray((seen - 1) * size, seen * size);
    if (!isAny(table)) continue;
    splitInto(tables, join, table, (k, part) => {
      const child = children[k]!;
      const span = join.spans[k]!;
      const top = (tops[child] ??= noTables(cores, STATE_COUNT * span.columns));
      addSeen(top, seen, span, join.maps[k]!, part);
    });
  }
}

function isAny(table: Float64Array): boolean {
  for (let i = 0; i < table.length; i++) if (table[i]! > 0) return true;
  return false;
}

function addSeen(
  top: SeenTables,
  seen: CoreSet,
  { labels, columns, contexts: own }: SpanSlot,
  map: Int32Array,
  part: Float64Array,
): void {
  const contexts = map.length;
  for (let s = 0; s < STATE_COUNT; s++) {
    const here = seen & STATES.view[s]!;
    if (here === 0) continue;
    const row = ((here - 1) * STATE_COUNT + s) * columns;
    for (let l = 0; l < labels; l++)
      for (let c = 0; c < contexts; c++)
        top[row + l * own + map[c]!]! += part[(s * labels + l) * contexts + c]!;
  }
}

/** The message of all worlds, and its part in which nothing of this span above held a short. */
interface SpanMessage {
  readonly all: SeenTables;
  readonly none: SeenTables;
}

/** Down through one component, from `above` to `below`; what it holds is added to held[heldAt + group]. */
function throughComponent(
  passage: Passage,
  ways: readonly VisibleWay[],
  live: LiveColumns,
  above: SpanMessage,
  below: SpanMessage,
  { held, heldAt, groups }: { held: Float64Array; heldAt: number; groups: number },
): void {
  const { columns, below: up, base } = passage;
  const { all, none } = above;
  const { all: allBelow, none: noneBelow } = below;
  const size = STATE_COUNT * columns;
  allBelow.fill(0);
  noneBelow.fill(0);
  for (const way of ways) {
    const chance = chanceOf(passage, way.effect);
    if (chance === 0) continue;
    const { seenBelow, holds } = way;
    const from = (way.seen - 1) * size + way.above * columns;
    const to = (seenBelow - 1) * size + way.below * columns;
    const upAt = base + way.below * columns;
    const pass = (a: number, b: number, weight: number) => {
      const whole = weight * all[from + a]!;
      if (whole === 0) return;
      if (seenBelow > 0) allBelow[to + b]! += whole;
      const part = weight * none[from + a]!;
      if (holds) held[heldAt + (a % groups)]! += part * up[upAt + b]!;
      else noneBelow[to + b]! += part;
    };
    if (isPlain(passage, way.effect))
      for (let k = 0; k < live.columns.length; k++)
        pass(live.columns[k]!, live.columns[k]!, chance);
    else forColumns(passage, way, chance, live, pass);
  }
}

/** The message at the bottom of the span into a node; null where nothing more is seen. */
function throughSpan(descent: Descent, n: number, top: SeenTables): SeenTables | null {
  const { up, cores, groups, held } = descent;
  const span = up.tables.spans[n]!;
  const live = { columns: descent.live(span.columns), contexts: descent.live(span.contexts) };
  const ways = visibleWays(up.model.effects, cores);
  const heldHere = { held: held.spans, heldAt: n * groups, groups };
  const [first, second] = descent.scratch(top.length);
  const [out, cable, inward] = passagesInto(up, n);
  throughComponent(out!, ways, live, { all: top, none: top }, first, heldHere);
  throughComponent(cable!, ways, live, first, second, heldHere);
  throughComponent(inward!, ways, live, second, first, heldHere);
  return isAny(first.all) ? first.all : null;
}

/** Two messages of a size, the same ones each time. */
function scratchMessages(): (size: number) => readonly [SpanMessage, SpanMessage] {
  const known = new Map<number, readonly [SpanMessage, SpanMessage]>();
  const make = (size: number) => ({ all: new Float64Array(size), none: new Float64Array(size) });
  return (size) => {
    const found = known.get(size) ?? [make(size), make(size)];
    known.set(size, found);
    return found;
  };
}

function throughNode(descent: Descent, n: number, down: SeenTables): void {
  const { up, cores } = descent;
  const { tables, model } = up;
  const node = up.nodes[n]!;
  const slot = tables.nodes[n]!;
  const { labels } = joined(node.join);
  const whole = noTables(cores, labels * slot.contexts * STATE_COUNT);
  const live = descent.live(slot.contexts);
  passStation(tables, slot, tables.spans[n]!, node, live, down, whole);
  passShorted(descent, n, live, down, whole);
  const children = model.tree.children[n]!;
  if (children.length > 0) passToSpans(descent, node.join, children, whole);
}

/** Down through a station that shorts nothing. */
function passStation(
  { gain }: TrunkTables,
  { at, contexts }: NodeSlot,
  above: SpanSlot,
  { join, spanContext, keep }: NodeJoin,
  live: Int32Array,
  down: SeenTables,
  whole: SeenTables,
): void {
  const { labels } = joined(join);
  const cores = down.length / (STATE_COUNT * above.columns);
  for (let seen = 1; seen <= cores; seen++)
    for (let s = 0; s < STATE_COUNT; s++) {
      if (seen & ~STATES.view[s]!) continue;
      const row = (seen - 1) * STATE_COUNT + s;
      const column = at * FEED_CLASSES + STATES.feed[s]! * contexts;
      for (let m = 0; m < keep.weight.length; m++) {
        const source = row * above.columns + keep.to[m]! * above.contexts;
        const target = (row * labels + keep.from[m]!) * contexts;
        for (const c of live)
          whole[target + c]! +=
            keep.weight[m]! * down[source + spanContext[c]!]! * gain[column + c]!;
      }
    }
}

/** Down through one that shorts the supply, which is seen where `seen` has the supply. */
function passShorted(
  { up: { tables, nodes }, groups, held }: Descent,
  n: number,
  live: Int32Array,
  down: SeenTables,
  whole: SeenTables,
): void {
  const { at, contexts } = tables.nodes[n]!;
  const above = tables.spans[n]!;
  const { join, spanContext, short } = nodes[n]!;
  const { table, at: start, stride, labels, step, map } = joined(join);
  const cores = down.length / (STATE_COUNT * above.columns);
  for (let seen = 1; seen <= cores; seen++)
    for (const s of DEAD_STATES) {
      if (seen & ~STATES.view[SHORTED[s]!]!) continue;
      const seenBelow = seen & STATES.view[s]!;
      for (let m = 0; m < short.weight.length; m++) {
        const row = (seen - 1) * STATE_COUNT + SHORTED[s]!;
        const source = row * above.columns + short.to[m]! * above.contexts;
        const rowBelow = (seenBelow - 1) * STATE_COUNT + s;
        const target = (rowBelow * labels + short.from[m]!) * contexts;
        const upAt = start + s * stride + short.from[m]! * step;
        for (const c of live) {
          const mass =
            short.weight[m]! * down[source + spanContext[c]!]! * tables.shortGain[at + c]!;
          if (seenBelow > 0) whole[target + c]! += mass;
          if (seen & SUPPLY)
            held.stations[n * groups + (c % groups)]! += mass * table[upAt + map[c]!]!;
        }
      }
    }
}
