import { contextCount } from './contexts.js';
import { FEED_CLASSES } from './feed-classes.js';
import { STATE_COUNT } from './states.js';
import type { TrunkModel } from './trunk-model.js';

/**
 * Where the tables of one span are in the trunk's arrays. A table is indexed by state (or by class of feed) and then by
 * context, so that inner loops run over contexts: state s of context c is at at * STATE_COUNT + s * contexts + c.
 */
export interface SpanSlot {
  readonly at: number;
  readonly contexts: number;
}

/** One trunk's messages, in a few long arrays: thousands of short ones would cost more than the sums. */
export interface TrunkTables {
  readonly spans: readonly SpanSlot[];
  readonly nodes: readonly SpanSlot[];
  /**
   * Upward messages P(what is known below, view | feed): `bottom` at the span's node, `top` at the node that feeds it.
   */
  readonly bottom: Float64Array;
  readonly aboveJunctionIn: Float64Array;
  readonly aboveCable: Float64Array;
  readonly top: Float64Array;
  /** The share of each of the three upper tables in which the component just passed is faulty. */
  readonly faultyJunctionIn: Float64Array;
  readonly faultyCable: Float64Array;
  readonly faultyJunctionOut: Float64Array;
  /** Gauges of `bottom` and of the three tables above it: logarithms by feed class and context. */
  readonly bottomGauge: Float64Array;
  readonly topGauge: Float64Array;
  /** At each node, from the joined spans to `bottom`: a change of gauge, and with the station's modes and evidence. */
  readonly scale: Float64Array;
  readonly gain: Float64Array;
  /** The same for a station that shorts the supply, by context. */
  readonly shortGain: Float64Array;
  /** Downward messages at the top of each span. */
  readonly down: Float64Array;
}

function slots(counts: readonly number[]): { slots: SpanSlot[]; total: number } {
  let total = 0;
  const list = counts.map((contexts) => {
    const slot = { at: total, contexts };
    total += contexts;
    return slot;
  });
  return { slots: list, total };
}

export function emptyTrunkTables({ plan }: TrunkModel): TrunkTables {
  const spans = slots(plan.spanFlags.map((flags) => contextCount(plan.groups, flags)));
  const nodes = slots(plan.nodeFlags.map((flags) => contextCount(plan.groups, flags)));
  const states = () => new Float64Array(spans.total * STATE_COUNT);
  return {
    spans: spans.slots,
    nodes: nodes.slots,
    bottom: states(),
    aboveJunctionIn: states(),
    aboveCable: states(),
    top: states(),
    faultyJunctionIn: states(),
    faultyCable: states(),
    faultyJunctionOut: states(),
    bottomGauge: new Float64Array(spans.total * FEED_CLASSES),
    topGauge: new Float64Array(spans.total * FEED_CLASSES),
    scale: new Float64Array(nodes.total * FEED_CLASSES),
    gain: new Float64Array(nodes.total * FEED_CLASSES),
    shortGain: new Float64Array(nodes.total),
    down: states(),
  };
}
