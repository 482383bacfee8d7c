import type { LabelPlan } from '../readings/label-plan.js';
import { contextCount } from './contexts.js';
import type { StateSpace } from './state-space.js';
import type { TrunkModel } from './trunk-model.js';
import { zeroTable } from '../numbers/zero-table.js';

/**
 * Where the tables of one node are in the trunk's arrays. A table is indexed by class of feed and then by context, so
 * that inner loops run over contexts.
 */
export interface NodeSlot {
  readonly at: number;
  readonly contexts: number;
}

/**
 * The same for one span, where each state has `columns` = labels * contexts entries: state s, label l, context c is at
 * at * states + s * columns + l * contexts + c. Scales, which labels share, are by feed and context from scaleAt.
 */
export interface SpanSlot {
  readonly at: number;
  readonly columns: number;
  readonly labels: number;
  readonly contexts: number;
  readonly scaleAt: number;
}

/** One trunk's messages, in a few long arrays: thousands of short ones would cost more than the sums. */
export interface TrunkTables {
  readonly space: StateSpace;
  readonly spans: readonly SpanSlot[];
  readonly nodes: readonly NodeSlot[];
  /**
   * Upward messages P(what is known below, view | feed): `bottom` at the span's node, `top` at the node that feeds it.
   */
  readonly bottom: Float64Array;
  readonly aboveJunctionIn: Float64Array;
  readonly aboveCable: Float64Array;
  readonly top: Float64Array;
  /** The share of `top` in which at least one component of the span is faulty: sums by the first that is, from the top. */
  readonly faulty: Float64Array;
  /** Scales of `bottom` and of the three tables above it: logarithms by feed class and context. */
  readonly bottomScale: Float64Array;
  readonly topScale: Float64Array;
  /** At each node, from the joined spans to `bottom`: a change of scale, and with the station's modes and evidence. */
  readonly scale: Float64Array;
  readonly gain: Float64Array;
  /** The same for a station that shorts the supply, by context. */
  readonly shortGain: Float64Array;
  /** Downward messages at the top of each span. */
  readonly down: Float64Array;
}

function nodeSlots(counts: readonly number[]): { slots: NodeSlot[]; total: number } {
  let total = 0;
  const slots = counts.map((contexts) => {
    const slot = { at: total, contexts };
    total += contexts;
    return slot;
  });
  return { slots, total };
}

function spanSlots(nodes: readonly NodeSlot[], labels: LabelPlan | null) {
  let total = 0;
  const slots = nodes.map(({ at: scaleAt, contexts }, n): SpanSlot => {
    const own = labels?.spans[n]?.labels ?? 1;
    const slot = { at: total, columns: own * contexts, labels: own, contexts, scaleAt };
    total += slot.columns;
    return slot;
  });
  return { slots, total };
}

export function emptyTrunkTables({ plan, labels, space }: TrunkModel): TrunkTables {
  const logScales = nodeSlots(plan.spanFlags.map((flags) => contextCount(plan.groups, flags)));
  const spans = spanSlots(logScales.slots, labels);
  const nodes = nodeSlots(plan.nodeFlags.map((flags) => contextCount(plan.groups, flags)));
  const states = () => zeroTable(spans.total * space.count);
  return {
    space,
    spans: spans.slots,
    nodes: nodes.slots,
    bottom: states(),
    aboveJunctionIn: states(),
    aboveCable: states(),
    top: states(),
    faulty: states(),
    bottomScale: zeroTable(logScales.total * space.feeds),
    topScale: zeroTable(logScales.total * space.feeds),
    scale: zeroTable(nodes.total * space.feeds),
    gain: zeroTable(nodes.total * space.feeds),
    shortGain: zeroTable(nodes.total),
    down: states(),
  };
}

const UPWARD = [
  'bottom',
  'aboveJunctionIn',
  'aboveCable',
  'top',
  'faulty',
  'bottomScale',
  'topScale',
  'scale',
  'gain',
  'shortGain',
] as const;

/** A copy to sweep up again; the messages down are written anew by each sweep, and shared. */
export function copyUpwardTables(tables: TrunkTables): TrunkTables {
  return { ...tables, ...Object.fromEntries(UPWARD.map((name) => [name, tables[name].slice()])) };
}

/** Makes what goes up through one node, and the span into it, what it is in tables with the same places. */
export function copyUpwardAt(n: number, from: TrunkTables, to: TrunkTables): void {
  const { count: states, feeds } = from.space;
  const span = from.spans[n];
  const node = from.nodes[n];
  if (span === undefined || node === undefined) return;
  const copy = (name: (typeof UPWARD)[number], at: number, length: number) => {
    to[name].set(from[name].subarray(at, at + length), at);
  };
  for (const name of ['bottom', 'aboveJunctionIn', 'aboveCable', 'top', 'faulty'] as const)
    copy(name, span.at * states, span.columns * states);
  copy('bottomScale', span.scaleAt * feeds, span.contexts * feeds);
  copy('topScale', span.scaleAt * feeds, span.contexts * feeds);
  copy('scale', node.at * feeds, node.contexts * feeds);
  copy('gain', node.at * feeds, node.contexts * feeds);
  copy('shortGain', node.at, node.contexts);
}

/** Takes the upward messages inside one span back where they are added up: what goes over its components is set. */
export function emptySpan({ spans, space, bottom, faulty }: TrunkTables, n: number): void {
  const slot = spans[n];
  if (slot === undefined) return;
  const from = slot.at * space.count;
  const to = from + slot.columns * space.count;
  bottom.fill(0, from, to);
  faulty.fill(0, from, to);
}
