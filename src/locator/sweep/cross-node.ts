/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { exp } from '../../elementary/exp.js';
import { ln } from '../../elementary/ln.js';
import type { Moves } from '../readings/label-space.js';
import { closingChances } from './contexts.js';
import { DEAD_FEED } from './feed-classes.js';
import { columnScale } from './scale.js';
import { isOfTables, isOnlySpan, type Join, joined, joinedScale } from './join.js';
import { joinNode, type NodeJoin } from './node-join.js';
import type { NodeLikelihood } from './node-likelihood.js';
import type { Product } from './product-scales.js';
import type { StationChances, StationClasses } from './station-classes.js';
import type { TrunkModel } from './trunk-model.js';
import type { NodeSlot, SpanSlot, TrunkTables } from './trunk-tables.js';
import { zeroTable } from '../numbers/zero-table.js';

/** P(the station's modes and what is known here | feed), the short apart; a junction box has neither. */
function stationGains(
  { count }: StationClasses,
  tables: TrunkTables,
  { at, contexts }: NodeSlot,
  station: StationChances | null,
  known: NodeLikelihood | null,
): void {
  const likelihood = known?.table;
  const { feeds } = tables.space;
  const base = at * feeds;
  tables.scale.fill(1, base, base + contexts * feeds);
  if (!station) tables.gain.fill(1, base, base + contexts * feeds);
  else if (!likelihood) {
    let sum = 0;
    for (let k = 0; k < count; k++) sum += station.classes[k]!;
    tables.gain.fill(sum, base, base + contexts * feeds);
    tables.shortGain.fill(station.short, at, at + contexts);
  } else
    for (let c = 0; c < contexts; c++) {
      const from = c * count * feeds;
      for (let feed = 0; feed < feeds; feed++) {
        let sum = 0;
        for (let k = 0; k < count; k++)
          sum += station.classes[k]! * likelihood[from + k * feeds + feed]!;
        tables.gain[base + feed * contexts + c] = sum;
      }
      tables.shortGain[at + c] = station.short * likelihood[from + DEAD_FEED]!;
    }
}

/** The largest of `moves`' share of each entry, times its factor by context, goes to `most`, by context. */
function raiseTo(
  most: Float64Array,
  mostAt: number,
  { from, weight }: Moves,
  { table, step, map }: Product,
  at: number,
  factors: Float64Array,
  factorAt: number,
  contexts: number,
): void {
  for (let m = 0; m < weight.length; m++)
    for (let c = 0; c < contexts; c++) {
      const entry = table[at + from[m]! * step + map[c]!]! * weight[m]! * factors[factorAt + c]!;
      if (entry > most[mostAt + c]!) most[mostAt + c] = entry;
    }
}

/** Logarithm of the largest entry of each column that the node would pass up, at feed * contexts + context. */
function columnLogs(
  tables: TrunkTables,
  { at, contexts }: NodeSlot,
  { join, keep, short }: NodeJoin,
  apart: Float64Array | null,
): Float64Array {
  const product = joined(join);
  const { count: states, feeds, feed: feedOf } = tables.space;
  const most = zeroTable(feeds * contexts);
  for (let s = 0; s < states; s++) {
    const feed = feedOf[s]!;
    const from = product.at + s * product.stride;
    const gainAt = at * feeds + feed * contexts;
    raiseTo(most, feed * contexts, keep, product, from, tables.gain, gainAt, contexts);
    if (feed === DEAD_FEED)
      raiseTo(most, feed * contexts, short, product, from, tables.shortGain, at, contexts);
  }
  for (let i = 0; i < most.length; i++) {
    const feed = Math.floor(i / contexts);
    most[i] =
      ln(most[i]!) + joinedScale(tables, join, i % contexts, feed) + (apart ? apart[i]! : 0);
  }
  return most;
}

/** The scale of the table above is that of the joined spans, where their contexts are the same. */
function keepScale(
  { bottomScale, topScale, space }: TrunkTables,
  above: SpanSlot,
  join: Join,
): void {
  const base = above.scaleAt * space.feeds;
  const size = above.contexts * space.feeds;
  const [only] = join.spans;
  if (join.spans.length === 0) bottomScale.fill(0, base, base + size);
  else if (only && isOnlySpan(join)) {
    const from = only.scaleAt * space.feeds;
    for (let i = 0; i < size; i++) bottomScale[base + i] = topScale[from + i]!;
  } else
    for (let i = 0; i < size; i++)
      bottomScale[base + i] = joinedScale(
        { topScale },
        join,
        i % above.contexts,
        Math.floor(i / above.contexts),
      );
}

/** Far inside the range of doubles: what is not must have its scale chosen anew. */
const LEAST_ENTRY = 1e-60;
const MOST_ENTRY = 1e60;

/** Whether the largest entry of each column and class of feed is in that range, or nothing. */
function isInRange({ bottom, space }: TrunkTables, { at, columns }: SpanSlot): boolean {
  const { count: states, feed } = space;
  const base = at * states;
  for (let c = base; c < base + columns; c++) {
    let most = 0;
    for (let s = 0; s < states; s++) {
      most = Math.max(most, bottom[c + s * columns]!);
      const isLast = s === states - 1 || feed[s + 1] !== feed[s];
      if (!isLast) continue;
      if (most > 0 && !(most >= LEAST_ENTRY && most <= MOST_ENTRY)) return false;
      most = 0;
    }
  }
  return true;
}

/** Chooses the scale of the table above so that its largest entries are near 1, and scales the gains to it. */
function chooseScale(
  tables: TrunkTables,
  slot: NodeSlot,
  above: SpanSlot,
  node: NodeJoin,
  closing: Float64Array,
  apart: Float64Array | null,
): void {
  const { join, spanContext } = node;
  const { bottomScale, scale, gain, shortGain } = tables;
  const { at, contexts } = slot;
  const logs = columnLogs(tables, slot, node, apart);
  const { feeds } = tables.space;
  const base = above.scaleAt * feeds;
  const columns = above.contexts * feeds;
  bottomScale.fill(-Infinity, base, base + columns);
  for (let i = 0; i < logs.length; i++) {
    const c = i % contexts;
    const to = base + Math.floor(i / contexts) * above.contexts + spanContext[c]!;
    bottomScale[to] = Math.max(bottomScale[to]!, logs[i]! + ln(closing[c]!));
  }
  for (let c = base; c < base + above.contexts; c++) {
    let largest = -Infinity;
    for (let i = c; i < base + columns; i += above.contexts)
      largest = Math.max(largest, bottomScale[i]!);
    for (let i = c; i < base + columns; i += above.contexts)
      bottomScale[i] = columnScale(bottomScale[i]!, largest);
  }
  for (let i = 0; i < logs.length; i++) {
    const c = i % contexts;
    const feed = Math.floor(i / contexts);
    const logScale = bottomScale[base + feed * above.contexts + spanContext[c]!]!;
    const known = apart ? apart[i]! : 0;
    // What is ruled out took another's scale, which may be beyond the range of doubles from its own.
    const log =
      logs[i] === -Infinity ? -Infinity : joinedScale(tables, join, c, feed) + known - logScale;
    const factor = closing[c]! * exp(log);
    scale[at * feeds + i] = factor;
    gain[at * feeds + i]! *= factor;
    if (feed === DEAD_FEED) shortGain[at + c]! *= factor;
  }
}

/**
 * What is known here apart from the gains, as logarithms by feed * contexts + context: volts that were read, and the scale
 * of what was told.
 */
function knownApart(
  whole: Uint8Array,
  { contexts }: NodeSlot,
  volts: Float64Array | null,
  told: Float64Array | null | undefined,
): Float64Array | null {
  if (!volts) return told ?? null;
  return Float64Array.from(
    { length: whole.length * contexts },
    (_, i) => volts[whole[Math.floor(i / contexts)]!]! + (told ? told[i]! : 0),
  );
}

/** `bottom` of the span above: the joined spans below, with the station's modes and evidence. */
function fillBottom(
  tables: TrunkTables,
  { at, contexts }: NodeSlot,
  above: SpanSlot,
  { join, spanContext, keep, short }: NodeJoin,
): void {
  const { bottom, gain, shortGain, space } = tables;
  const { count: states, feeds, feed, dead, shorted } = space;
  const { table, at: start, stride, step, map } = joined(join);
  const base = above.at * states;
  for (let s = 0; s < states; s++) {
    const gainAt = at * feeds + feed[s]! * contexts;
    for (let m = 0; m < keep.weight.length; m++) {
      const to = base + s * above.columns + keep.to[m]! * above.contexts;
      const from = start + s * stride + keep.from[m]! * step;
      const weight = keep.weight[m]!;
      for (let c = 0; c < contexts; c++)
        bottom[to + spanContext[c]!]! += table[from + map[c]!]! * (weight * gain[gainAt + c]!);
    }
  }
  for (const s of dead)
    for (let m = 0; m < short.weight.length; m++) {
      const to = base + shorted[s]! * above.columns + short.to[m]! * above.contexts;
      const from = start + s * stride + short.from[m]! * step;
      const weight = short.weight[m]!;
      for (let c = 0; c < contexts; c++)
        bottom[to + spanContext[c]!]! += table[from + map[c]!]! * (weight * shortGain[at + c]!);
    }
}

/**
 * Upward through a node: joins the spans below, brings in its station and evidence, fills `bottom` above.
 *
 * @param known the same node of another sweep: what of it says nothing of what came up is not made again
 */
export function crossNode(
  model: TrunkModel,
  n: number,
  tables: TrunkTables,
  known?: NodeJoin,
): NodeJoin {
  const { plan, tree } = model;
  const flags = plan.nodeFlags[n]!;
  const spanFlags = plan.spanFlags[n]!;
  const likelihood = model.likelihood[n]!;
  const slot = tables.nodes[n]!;
  const above = tables.spans[n]!;
  const apart = knownApart(
    model.space.classes[0]!,
    slot,
    model.readings?.volts[n] ?? null,
    likelihood?.logs,
  );
  const node =
    known !== undefined && isOfTables(known.join, tables) ? known : joinNode(model, n, tables);
  const isSame = flags.length === spanFlags.length;
  stationGains(model.system.stationClasses, tables, slot, model.station[n]!, likelihood);
  if (isSame && apart === null) {
    keepScale(tables, above, node.join);
    fillBottom(tables, slot, above, node);
    const isNews =
      likelihood !== null ||
      tree.children[n]!.length > 1 ||
      model.labels?.nodes[n]?.closes === true;
    if (!isNews || isInRange(tables, above)) return node;
    const states = model.space.count;
    tables.bottom.fill(0, above.at * states, (above.at + above.columns) * states);
  }
  chooseScale(
    tables,
    slot,
    above,
    node,
    closingChances(plan.groups, flags, spanFlags, model.flags),
    apart,
  );
  fillBottom(tables, slot, above, node);
  return node;
}
