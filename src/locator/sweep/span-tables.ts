import { FEED_CLASSES } from './feed-classes.js';
import type { Ratios } from './gauge.js';
import { STATE_COUNT } from './states.js';

/**
 * Upward messages of one span: P(what is known below, view | feed) by context and state, at context * STATE_COUNT +
 * state. `bottom` is at the span's node, `top` at the node that feeds it.
 */
export interface SpanTables {
  readonly contexts: number;
  readonly bottom: Float64Array;
  readonly aboveJunctionIn: Float64Array;
  readonly aboveCable: Float64Array;
  readonly top: Float64Array;
  /** The share of each of the three upper tables in which the component just passed is faulty. */
  readonly faultyJunctionIn: Float64Array;
  readonly faultyCable: Float64Array;
  readonly faultyJunctionOut: Float64Array;
  /** Gauges of `bottom` and of the three tables above it: logarithms at context * FEED_CLASSES + feed. */
  readonly bottomGauge: Float64Array;
  readonly topGauge: Float64Array;
  /** Ratios for the step over the junction-in and for the two above it, by context. */
  readonly ratiosIn: Ratios[];
  readonly ratiosUp: Ratios[];
}

export function emptySpanTables(contexts: number): SpanTables {
  const table = () => new Float64Array(contexts * STATE_COUNT);
  const gauge = () => new Float64Array(contexts * FEED_CLASSES);
  return {
    contexts,
    bottom: table(),
    aboveJunctionIn: table(),
    aboveCable: table(),
    top: table(),
    faultyJunctionIn: table(),
    faultyCable: table(),
    faultyJunctionOut: table(),
    bottomGauge: gauge(),
    topGauge: gauge(),
    ratiosIn: [],
    ratiosUp: [],
  };
}
