/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { SUPPLY } from '../model/cores.js';
import { closingChances, contextMap } from './contexts.js';
import { DEAD_FEED, FEED_CLASSES } from './feed-classes.js';
import { type Join, joined, joinedGauge, joinSpans } from './join.js';
import type { SpanTables } from './span-tables.js';
import { STATE_COUNT, STATES, stateOf } from './states.js';
import { STATION_CLASS_COUNT, type StationChances } from './station-classes.js';
import type { TrunkModel } from './trunk-model.js';

/** A node between the spans that it feeds and the span that feeds it. */
export interface NodeTables {
  readonly join: Join;
  /** The context of the span above for each context of the node. */
  readonly spanContext: Int32Array;
  /** From the joined spans to the table above, at context * FEED_CLASSES + feed: a change of gauge … */
  readonly scale: Float64Array;
  /** … and with the station's modes and evidence. */
  readonly gain: Float64Array;
  /** The same, by context, for a station that shorts the supply: its feed is dead and its view gains the supply. */
  readonly shortGain: Float64Array;
}

const DEAD_STATES = Array.from(STATES.feed.keys()).filter((s) => STATES.feed[s] === DEAD_FEED);
const SHORTED = Int8Array.from(STATES.view, (view) => stateOf(view | SUPPLY, DEAD_FEED));

/** P(the station's modes and what is known here | feed), the short apart; a junction box has neither. */
function stationGains(
  station: StationChances | null,
  likelihood: Float64Array | null,
  contexts: number,
): { gain: Float64Array; shortGain: Float64Array } {
  const gain = new Float64Array(contexts * FEED_CLASSES).fill(station ? 0 : 1);
  const shortGain = new Float64Array(contexts);
  if (!station) return { gain, shortGain };
  for (let context = 0; context < contexts; context++) {
    for (let k = 0; k < STATION_CLASS_COUNT; k++)
      for (let feed = 0; feed < FEED_CLASSES; feed++) {
        const at = (context * STATION_CLASS_COUNT + k) * FEED_CLASSES + feed;
        gain[context * FEED_CLASSES + feed]! +=
          station.classes[k]! * (likelihood ? likelihood[at]! : 1);
      }
    const dead = context * STATION_CLASS_COUNT * FEED_CLASSES + DEAD_FEED;
    shortGain[context] = station.short * (likelihood ? likelihood[dead]! : 1);
  }
  return { gain, shortGain };
}

/** The largest entry of each column that the node would pass up, before any change of gauge. */
function columnMaxima(tables: NodeTables): Float64Array {
  const { join, gain, shortGain } = tables;
  const product = joined(join);
  const maxima = new Float64Array(join.contexts * FEED_CLASSES);
  for (let context = 0; context < join.contexts; context++)
    for (let s = 0; s < STATE_COUNT; s++) {
      const feed = STATES.feed[s]!;
      const at = context * FEED_CLASSES + feed;
      const most = feed === DEAD_FEED ? Math.max(gain[at]!, shortGain[context]!) : gain[at]!;
      maxima[at] = Math.max(maxima[at]!, product.tables[product.at[context]! + s]! * most);
    }
  return maxima;
}

/** Chooses the gauge of the table above so that its largest entries are near 1, and scales the gains to it. */
function chooseGauge(tables: NodeTables, above: SpanTables, closing: Float64Array): void {
  const { join, spanContext, scale, gain, shortGain } = tables;
  const maxima = columnMaxima(tables);
  above.bottomGauge.fill(-Infinity);
  const gauge = Float64Array.from(maxima, (most, at) => {
    const context = Math.floor(at / FEED_CLASSES);
    const logClosing = Math.log(closing[context]!);
    const own = joinedGauge(join, context, at % FEED_CLASSES) + logClosing;
    const to = spanContext[context]! * FEED_CLASSES + (at % FEED_CLASSES);
    above.bottomGauge[to] = Math.max(above.bottomGauge[to]!, own + Math.log(most));
    return own;
  });
  gauge.forEach((own, at) => {
    const context = Math.floor(at / FEED_CLASSES);
    const target = above.bottomGauge[spanContext[context]! * FEED_CLASSES + (at % FEED_CLASSES)]!;
    scale[at] = target === -Infinity ? 0 : Math.exp(own - target);
    gain[at]! *= scale[at];
    if (at % FEED_CLASSES === DEAD_FEED) shortGain[context]! *= scale[at];
  });
}

/** Upward through a node: joins the spans below, brings in its station and evidence, fills `above.bottom`. */
export function crossNode(
  model: TrunkModel,
  n: number,
  below: readonly SpanTables[],
  above: SpanTables,
): NodeTables {
  const { plan, tree } = model;
  const flags = plan.nodeFlags[n]!;
  const spanFlags = plan.spanFlags[n]!;
  const likelihood = model.likelihood[n]!;
  const childFlags = tree.children[n]!.map((child) => plan.spanFlags[child]!);
  const join = joinSpans(plan.groups, flags, below, childFlags);
  const tables: NodeTables = {
    join,
    spanContext: contextMap(plan.groups, flags, spanFlags),
    scale: new Float64Array(join.contexts * FEED_CLASSES).fill(1),
    ...stationGains(model.station[n]!, likelihood, join.contexts),
  };
  if (!likelihood && below.length < 2 && flags.length === spanFlags.length) {
    for (let at = 0; at < above.bottomGauge.length; at++)
      above.bottomGauge[at] = joinedGauge(join, Math.floor(at / FEED_CLASSES), at % FEED_CLASSES);
  } else {
    chooseGauge(tables, above, closingChances(plan.groups, flags, spanFlags, model.flags));
  }
  const product = joined(join);
  for (let context = 0; context < join.contexts; context++) {
    const from = product.at[context]!;
    const to = tables.spanContext[context]! * STATE_COUNT;
    for (let s = 0; s < STATE_COUNT; s++)
      above.bottom[to + s]! +=
        product.tables[from + s]! * tables.gain[context * FEED_CLASSES + STATES.feed[s]!]!;
    for (const s of DEAD_STATES)
      above.bottom[to + SHORTED[s]!]! += product.tables[from + s]! * tables.shortGain[context]!;
  }
  return tables;
}

/** What the sweep down finds at a node, by context: the posterior of feeds before its station's modes. */
export interface NodeMasses {
  /** Posterior mass of each feed at context * FEED_CLASSES + feed, to be multiplied by the station's modes. */
  readonly feeds: Float64Array;
  /** The same for the dead feed of a station that shorts the supply, by context. */
  readonly shorted: Float64Array;
}

/** Downward through a node: from the message at the bottom of the span above to those at the tops of the spans below. */
export function descendNode(
  tables: NodeTables,
  down: Float64Array,
): { toJoin: Float64Array; masses: NodeMasses } {
  const { join, spanContext, scale, gain, shortGain } = tables;
  const product = joined(join);
  const toJoin = new Float64Array(join.contexts * STATE_COUNT);
  const feeds = new Float64Array(join.contexts * FEED_CLASSES);
  const shorted = new Float64Array(join.contexts);
  for (let context = 0; context < join.contexts; context++) {
    const from = spanContext[context]! * STATE_COUNT;
    const to = context * STATE_COUNT;
    const at = product.at[context]!;
    for (let s = 0; s < STATE_COUNT; s++) {
      const column = context * FEED_CLASSES + STATES.feed[s]!;
      toJoin[to + s] = down[from + s]! * gain[column]!;
      feeds[column]! += down[from + s]! * scale[column]! * product.tables[at + s]!;
    }
    const deadScale = scale[context * FEED_CLASSES + DEAD_FEED]!;
    for (const s of DEAD_STATES) {
      const above = down[from + SHORTED[s]!]!;
      toJoin[to + s]! += above * shortGain[context]!;
      shorted[context]! += above * deadScale * product.tables[at + s]!;
    }
  }
  return { toJoin, masses: { feeds, shorted } };
}
