/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { exp } from '../../elementary/exp.js';
import { type CoreSet, SUPPLY } from '../../plan/cores.js';
import { isOnlySpan, type Join, joined, joinedScale } from '../sweep/join.js';
import { splitInto } from '../sweep/split-join.js';
import { MOST_LOG, portFeeds } from '../sweep/port.js';
import type { StateSpace } from '../sweep/state-space.js';
import type { SweptStations } from '../sweep/sweep-site.js';
import type { UpwardSweep } from '../sweep/sweep-trunk.js';
import type { SpanSlot } from '../sweep/trunk-tables.js';
import { passagesInto } from './passages.js';
import { scratchMessages, type SeenTable, throughComponent } from './visible-pass.js';
import { seenRows, visibleWays } from './visible-ways.js';
import { zeroTable } from '../numbers/zero-table.js';

// A second message comes down beside the plain one, in worlds alone in which a short is seen from the port, and
// split by the cores (`seen`) of shorts at or below the point that are seen from there. A short's place is where the
// message meets an effect that shorts such a core. Where nothing more is seen, the message ends.

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
  readonly live: SweptStations['live'];
  readonly scratch: ReturnType<typeof scratchMessages>;
  /** The message at the top of each span; undefined where it has not come. */
  readonly tops: (SeenTable | undefined)[];
}

export function noShorts({ site, sweeps }: SweptStations, trunk: number): HeldShorts {
  const size = sweeps[trunk]!.model.tree.count * site.headEnd.count;
  return { spans: zeroTable(size), stations: zeroTable(size) };
}

/** Where the shorts of `cores` are that are seen from the port of a trunk. */
export function heldShorts(swept: SweptStations, trunk: number, cores: CoreSet): HeldShorts {
  const up = swept.sweeps[trunk]!;
  const groups = swept.site.headEnd.count;
  const { tree } = up.model;
  const held = noShorts(swept, trunk);
  const tops = new Array<SeenTable | undefined>(tree.count);
  const scratch = scratchMessages();
  const descent: Descent = {
    up,
    cores,
    groups,
    held,
    live: swept.live,
    scratch,
    tops,
  };
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

function fromPort({ up, cores }: Descent, logWeights: Float64Array): SeenTable {
  const { model, tables, port } = up;
  const { space } = model;
  const { join, siteContext, closing, labelWeight, logFlat } = port;
  const { labels } = joined(join);
  const rows = seenRows(space, cores);
  const whole = zeroTable(rows.count * labels * join.contexts);
  for (let c = 0; c < join.contexts; c++) {
    const weight = logWeights[siteContext[c]!]!;
    if (weight === -Infinity) continue;
    for (let s = 0; s < space.count; s++) {
      const seen = space.view[s]! & cores;
      if (seen === 0) continue;
      const row = rows.of[(seen - 1) * space.count + s]!;
      const logScale = joinedScale(tables, join, c, space.feed[s]!);
      const mass =
        exp(Math.min(weight + logFlat + logScale, MOST_LOG)) *
        closing[c]! *
        portFeeds(model, s, c % model.plan.groups).ok;
      for (let l = 0; l < labels; l++)
        whole[(row * labels + l) * join.contexts + c] = labelWeight[l]! * mass;
    }
  }
  return whole;
}

/** The message down to joined spans goes on to each of them, with what of it is seen there. */
function passToSpans(
  { up: { tables }, cores, tops }: Descent,
  join: Join,
  children: readonly number[],
  whole: SeenTable,
): void {
  const { space } = tables;
  if (isOnlySpan(join)) {
    if (isAny(whole)) tops[children[0]!] = whole;
    return;
  }
  const { count, of, state } = seenRows(space, cores);
  const width = whole.length / count;
  for (let seen = 1; seen <= cores; seen++) {
    const table = zeroTable(space.count * width);
    for (let row = 0; row < count; row++)
      if (of[(seen - 1) * space.count + state[row]!] === row)
        table.set(whole.subarray(row * width, (row + 1) * width), state[row]! * width);
    if (!isAny(table)) continue;
    splitInto(tables, join, table, (k, part) => {
      const span = join.spans[k]!;
      const top = (tops[children[k]!] ??= zeroTable(count * span.columns));
      addSeen(space, top, cores, seen, span, join.maps[k]!, part);
    });
  }
}

function isAny(table: Float64Array): boolean {
  for (let i = 0; i < table.length; i++) if (table[i]! > 0) return true;
  return false;
}

function addSeen(
  space: StateSpace,
  top: SeenTable,
  cores: CoreSet,
  seen: CoreSet,
  { labels, columns, contexts: own }: SpanSlot,
  map: Int32Array,
  part: Float64Array,
): void {
  const contexts = map.length;
  const { of } = seenRows(space, cores);
  for (let s = 0; s < space.count; s++) {
    const here = seen & space.view[s]!;
    if (here === 0) continue;
    const at = of[(here - 1) * space.count + s]! * columns;
    for (let l = 0; l < labels; l++)
      for (let c = 0; c < contexts; c++)
        top[at + l * own + map[c]!]! += part[(s * labels + l) * contexts + c]!;
  }
}

/** The message at the bottom of the span into a node; null where nothing more is seen. */
function throughSpan(descent: Descent, n: number, top: SeenTable): SeenTable | null {
  const { up, cores, groups, held } = descent;
  const span = up.tables.spans[n]!;
  const live = {
    columns: descent.live(span.columns),
    contexts: descent.live(span.contexts),
  };
  const ways = visibleWays(up.model.space, up.model.effects, cores);
  const heldHere = { held: held.spans, heldAt: n * groups, groups };
  const [first, second] = descent.scratch(top.length);
  const [out, cable, inward] = passagesInto(up, n);
  throughComponent(out!, ways, live, { all: top, none: top }, first, heldHere);
  throughComponent(cable!, ways, live, first, second, heldHere);
  throughComponent(inward!, ways, live, second, first, heldHere);
  return isAny(first.all) ? first.all : null;
}

function throughNode(descent: Descent, n: number, down: SeenTable): void {
  const { up, cores } = descent;
  const { tables, model } = up;
  const node = up.nodes[n]!;
  const slot = tables.nodes[n]!;
  const { labels } = joined(node.join);
  const whole = zeroTable(seenRows(model.space, cores).count * labels * slot.contexts);
  const live = descent.live(slot.contexts);
  passStation(descent, n, live, down, whole);
  passShorted(descent, n, live, down, whole);
  const children = model.tree.children[n]!;
  if (children.length > 0) passToSpans(descent, node.join, children, whole);
}

/** Down through a station that shorts nothing. */
function passStation(
  { up, cores }: Descent,
  n: number,
  live: Int32Array,
  down: SeenTable,
  whole: SeenTable,
): void {
  const { gain, space } = up.tables;
  const { at, contexts } = up.tables.nodes[n]!;
  const above = up.tables.spans[n]!;
  const { join, spanContext, keep } = up.nodes[n]!;
  const { labels } = joined(join);
  const { count, state } = seenRows(space, cores);
  for (let row = 0; row < count; row++) {
    const column = at * space.feeds + space.feed[state[row]!]! * contexts;
    for (let m = 0; m < keep.weight.length; m++) {
      const source = row * above.columns + keep.to[m]! * above.contexts;
      const target = (row * labels + keep.from[m]!) * contexts;
      const weight = keep.weight[m]!;
      for (let k = 0; k < live.length; k++) {
        const c = live[k]!;
        whole[target + c]! += weight * down[source + spanContext[c]!]! * gain[column + c]!;
      }
    }
  }
}

/** Down through one that shorts the supply, which is seen where `seen` has the supply. */
function passShorted(
  { up: { tables, nodes }, cores, groups, held }: Descent,
  n: number,
  live: Int32Array,
  down: SeenTable,
  whole: SeenTable,
): void {
  const { at, contexts } = tables.nodes[n]!;
  const above = tables.spans[n]!;
  const { join, spanContext, short } = nodes[n]!;
  const { table, at: start, stride, labels, step, map } = joined(join);
  const { space } = tables;
  const { of } = seenRows(space, cores);
  for (let seen = 1; seen <= cores; seen++)
    for (const s of space.dead) {
      const row = of[(seen - 1) * space.count + space.shorted[s]!]!;
      if (row < 0) continue;
      const seenBelow = seen & space.view[s]!;
      const rowBelow = seenBelow > 0 ? of[(seenBelow - 1) * space.count + s]! : -1;
      for (let m = 0; m < short.weight.length; m++) {
        const source = row * above.columns + short.to[m]! * above.contexts;
        const target = (rowBelow * labels + short.from[m]!) * contexts;
        const upAt = start + s * stride + short.from[m]! * step;
        const weight = short.weight[m]!;
        for (let k = 0; k < live.length; k++) {
          const c = live[k]!;
          const mass = weight * down[source + spanContext[c]!]! * tables.shortGain[at + c]!;
          if (rowBelow >= 0) whole[target + c]! += mass;
          if (seen & SUPPLY)
            held.stations[n * groups + (c % groups)]! += mass * table[upAt + map[c]!]!;
        }
      }
    }
}
