/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { SUPPLY } from '../model/cores.js';
import { closingChances, contextMap } from './contexts.js';
import { DEAD_FEED, FEED_CLASSES } from './feed-classes.js';
import { columnGauge } from './gauge.js';
import { type Join, joined, joinedGauge, joinSpans } from './join.js';
import { STATE_COUNT, STATES, stateOf } from './states.js';
import { STATION_CLASS_COUNT, type StationChances } from './station-classes.js';
import type { TrunkModel } from './trunk-model.js';
import type { SpanSlot, TrunkTables } from './trunk-tables.js';

/** A node between the spans that it feeds and the span that feeds it. */
export interface NodeJoin {
  readonly join: Join;
  /** The context of the span above for each context of the node. */
  readonly spanContext: Int32Array;
}

export const DEAD_STATES = Uint8Array.from(
  Array.from(STATES.feed.keys()).filter((s) => STATES.feed[s] === DEAD_FEED),
);

/** The state that a station's short of the supply makes of each dead one. */
export const SHORTED = Int8Array.from(STATES.view, (view) => stateOf(view | SUPPLY, DEAD_FEED));

/** P(the station's modes and what is known here | feed), the short apart; a junction box has neither. */
function stationGains(
  tables: TrunkTables,
  { at, contexts }: SpanSlot,
  station: StationChances | null,
  likelihood: Float64Array | null,
): void {
  const base = at * FEED_CLASSES;
  tables.scale.fill(1, base, base + contexts * FEED_CLASSES);
  if (!station) tables.gain.fill(1, base, base + contexts * FEED_CLASSES);
  else
    for (let c = 0; c < contexts; c++) {
      const from = c * STATION_CLASS_COUNT * FEED_CLASSES;
      for (let feed = 0; feed < FEED_CLASSES; feed++) {
        let sum = 0;
        for (let k = 0; k < STATION_CLASS_COUNT; k++)
          sum +=
            station.classes[k]! * (likelihood ? likelihood[from + k * FEED_CLASSES + feed]! : 1);
        tables.gain[base + feed * contexts + c] = sum;
      }
      tables.shortGain[at + c] = station.short * (likelihood ? likelihood[from + DEAD_FEED]! : 1);
    }
}

/** Logarithm of the largest entry of each column that the node would pass up, at feed * contexts + context. */
function columnLogs(tables: TrunkTables, { at, contexts }: SpanSlot, join: Join): Float64Array {
  const product = joined(join);
  const most = new Float64Array(FEED_CLASSES * contexts);
  for (let s = 0; s < STATE_COUNT; s++) {
    const feed = STATES.feed[s]!;
    for (let c = 0; c < contexts; c++) {
      const gain = tables.gain[at * FEED_CLASSES + feed * contexts + c]!;
      const entry =
        product.table[product.at + s * product.stride + product.map[c]!]! *
        (feed === DEAD_FEED ? Math.max(gain, tables.shortGain[at + c]!) : gain);
      if (entry > most[feed * contexts + c]!) most[feed * contexts + c] = entry;
    }
  }
  for (let i = 0; i < most.length; i++)
    most[i] =
      Math.log(most[i]!) + joinedGauge(tables, join, i % contexts, Math.floor(i / contexts));
  return most;
}

/** Chooses the gauge of the table above so that its largest entries are near 1, and scales the gains to it. */
function chooseGauge(
  tables: TrunkTables,
  slot: SpanSlot,
  above: SpanSlot,
  { join, spanContext }: NodeJoin,
  closing: Float64Array,
): void {
  const { bottomGauge, scale, gain, shortGain } = tables;
  const { at, contexts } = slot;
  const logs = columnLogs(tables, slot, join);
  const base = above.at * FEED_CLASSES;
  const columns = above.contexts * FEED_CLASSES;
  bottomGauge.fill(-Infinity, base, base + columns);
  for (let i = 0; i < logs.length; i++) {
    const c = i % contexts;
    const to = base + Math.floor(i / contexts) * above.contexts + spanContext[c]!;
    bottomGauge[to] = Math.max(bottomGauge[to]!, logs[i]! + Math.log(closing[c]!));
  }
  for (let c = base; c < base + above.contexts; c++) {
    let largest = -Infinity;
    for (let i = c; i < base + columns; i += above.contexts)
      largest = Math.max(largest, bottomGauge[i]!);
    for (let i = c; i < base + columns; i += above.contexts)
      bottomGauge[i] = columnGauge(bottomGauge[i]!, largest);
  }
  for (let i = 0; i < logs.length; i++) {
    const c = i % contexts;
    const feed = Math.floor(i / contexts);
    const gauge = bottomGauge[base + feed * above.contexts + spanContext[c]!]!;
    const factor = closing[c]! * Math.exp(joinedGauge(tables, join, c, feed) - gauge);
    scale[at * FEED_CLASSES + i] = factor;
    gain[at * FEED_CLASSES + i]! *= factor;
    if (feed === DEAD_FEED) shortGain[at + c]! *= factor;
  }
}

/** `bottom` of the span above: the joined spans below, with the station's modes and evidence. */
function fillBottom(
  tables: TrunkTables,
  { at, contexts }: SpanSlot,
  above: SpanSlot,
  { join, spanContext }: NodeJoin,
): void {
  const { bottom, gain, shortGain } = tables;
  const { table, at: from, stride, map } = joined(join);
  const base = above.at * STATE_COUNT;
  for (let s = 0; s < STATE_COUNT; s++) {
    const gainAt = at * FEED_CLASSES + STATES.feed[s]! * contexts;
    const to = base + s * above.contexts;
    for (let c = 0; c < contexts; c++)
      bottom[to + spanContext[c]!]! += table[from + s * stride + map[c]!]! * gain[gainAt + c]!;
  }
  for (const s of DEAD_STATES) {
    const to = base + SHORTED[s]! * above.contexts;
    for (let c = 0; c < contexts; c++)
      bottom[to + spanContext[c]!]! += table[from + s * stride + map[c]!]! * shortGain[at + c]!;
  }
}

/** Upward through a node: joins the spans below, brings in its station and evidence, fills `bottom` above. */
export function crossNode(model: TrunkModel, n: number, tables: TrunkTables): NodeJoin {
  const { plan, tree } = model;
  const flags = plan.nodeFlags[n]!;
  const spanFlags = plan.spanFlags[n]!;
  const children = tree.children[n]!;
  const likelihood = model.likelihood[n]!;
  const slot = tables.nodes[n]!;
  const above = tables.spans[n]!;
  const join = joinSpans(
    tables,
    plan.groups,
    flags,
    children.map((child) => tables.spans[child]!),
    children.map((child) => plan.spanFlags[child]!),
  );
  const node = { join, spanContext: contextMap(plan.groups, flags, spanFlags) };
  stationGains(tables, slot, model.station[n]!, likelihood);
  if (!likelihood && children.length < 2 && flags.length === spanFlags.length) {
    const base = above.at * FEED_CLASSES;
    for (let i = 0; i < above.contexts * FEED_CLASSES; i++)
      tables.bottomGauge[base + i] = joinedGauge(
        tables,
        join,
        i % above.contexts,
        Math.floor(i / above.contexts),
      );
  } else {
    chooseGauge(
      tables,
      slot,
      above,
      node,
      closingChances(plan.groups, flags, spanFlags, model.flags),
    );
  }
  fillBottom(tables, slot, above, node);
  return node;
}
