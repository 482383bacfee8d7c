/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ln } from '../../elementary/ln.js';
import type { System } from '../sweep/system.js';
import type { UpwardSweep } from '../sweep/sweep-trunk.js';
import type { InformativeNode } from './informative-nodes.js';
import { classOfFeed, feedOf, type LabelledSite, viewOf } from './local-cases.js';
import { VIEW_COUNT } from './run-effects.js';
import { type ScaledViews, scaledViews } from './view-products.js';
import { zeroTable } from '../numbers/zero-table.js';

/** More than any informative node has over its `outer`. */
const MOST_CONTEXTS = 2 ** 24;

/** The most that any feed makes of a table by context and state of the sweeps: by context and view. */
function mostByView(table: Float64Array, { count, view }: System['states']): Float64Array {
  const contexts = table.length / count;
  const most = zeroTable(contexts * VIEW_COUNT).fill(-Infinity);
  for (let i = 0; i < table.length; i++) {
    const at = Math.floor(i / count) * VIEW_COUNT + view[i % count]!;
    most[at] = Math.max(most[at]!, table[i]!);
  }
  return most;
}

/**
 * What the upward sweeps say of everything below the informative nodes, for one head-end group: sums over all explanations, and so
 * never less than any one of them.
 */
export class Inside {
  private readonly logs: (Float64Array | undefined)[] = [];
  private readonly mosts: (Float64Array | undefined)[] = [];
  private readonly seen = new Map<number, ScaledViews>();
  readonly system: System;
  private readonly groups: number;
  constructor(
    private readonly site: LabelledSite,
    private readonly informativeNodes: readonly InformativeNode[],
    private readonly sweeps: readonly UpwardSweep[],
    readonly group: number,
  ) {
    this.system = site.system;
    this.groups = site.headEnd.count;
  }

  /** log P(what is known at an informative node and below, its view | its feed, context over its `outer` flags). */
  at(h: number, context: number, state: number): number {
    const { kind, trunk } = this.informativeNodes[h]!;
    if (kind === 'port')
      return this.sweeps[trunk]!.port.logEvidence[context * this.groups + this.group]!;
    const { states, stateOf } = this.system;
    const of = stateOf(viewOf(state), classOfFeed(this.system)[feedOf(state)]!);
    return of < 0 ? -Infinity : this.table(h)[context * states.count + of]!;
  }

  /** The most that any feed makes of `at`, given the view. */
  most(h: number, context: number, view: number): number {
    this.mosts[h] ??= mostByView(this.table(h), this.system.states);
    return this.mosts[h][context * VIEW_COUNT + view]!;
  }

  /**
   * The message at the top of the run from an informative node to the one below it, P(what is known below, view), in a context there,
   * given the class of the feed.
   */
  above(h: number, j: number, context: number, feed: number): ScaledViews {
    const { below, runs, kind } = this.informativeNodes[h]!;
    if (kind === 'site') return { views: Float64Array.of(1), log: this.at(below[j]!, context, 0) };
    const key = (below[j]! * MOST_CONTEXTS + context) * this.system.feedClasses.count + feed;
    const known = this.seen.get(key) ?? this.readTop(below[j]!, runs[j]!.nodes[0]!, context, feed);
    this.seen.set(key, known);
    return known;
  }

  private readTop(h: number, n: number, context: number, feed: number): ScaledViews {
    const { tables } = this.sweeps[this.informativeNodes[h]!.trunk]!;
    const { at, columns, contexts, scaleAt } = tables.spans[n]!;
    const { count, feeds } = tables.space;
    const { c, column, label } = this.columnOf(h, context, contexts);
    const views = zeroTable(VIEW_COUNT);
    let logScale = -Infinity;
    for (let view = 0; view < VIEW_COUNT; view++) {
      const s = this.stateAt(h, n, view, feed, label);
      if (s < 0) continue;
      views[view] = tables.top[at * count + s * columns + column]!;
      logScale = tables.topScale[scaleAt * feeds + tables.space.feed[s]! * contexts + c]!;
    }
    return scaledViews(views, logScale);
  }

  /**
   * Where a context over an informative node's `outer` (its label and flags) is in the sweeps' tables of its span: labels
   * of readings have columns there, those of disconnections are part of its states.
   */
  private columnOf(h: number, context: number, contexts: number) {
    const { trunk, outer } = this.informativeNodes[h]!;
    const c = (context & ((1 << outer.length) - 1)) * this.groups + this.group;
    const label = context >> outer.length;
    return { c, label, column: this.site.cuts[trunk] ? c : label * contexts + c };
  }

  /** The state of the sweeps with a view and a class of feed with the trunk whole; -1 where that cannot be. */
  private stateAt(h: number, n: number, view: number, feed: number, label: number): number {
    const cuts = this.site.cuts[this.informativeNodes[h]!.trunk];
    return cuts ? cuts.stateOf(n, view, feed, label) : this.system.stateOf(view, feed);
  }

  /** By context and state of the trunk whole. */
  private table(h: number): Float64Array {
    const known = this.logs[h];
    if (known) return known;
    const { trunk, node, outerCount } = this.informativeNodes[h]!;
    const { tables } = this.sweeps[trunk]!;
    const { at, columns, contexts, scaleAt } = tables.spans[node]!;
    const { count, feeds, feed } = tables.space;
    const { states } = this.system;
    const table = zeroTable(states.count * outerCount).fill(-Infinity);
    for (let context = 0; context < outerCount; context++) {
      const { c, column, label } = this.columnOf(h, context, contexts);
      for (let whole = 0; whole < states.count; whole++) {
        const s = this.stateAt(h, node, states.view[whole]!, states.feed[whole]!, label);
        if (s < 0) continue;
        const mass = tables.bottom[at * count + s * columns + column]!;
        const logScale = tables.bottomScale[scaleAt * feeds + feed[s]! * contexts + c]!;
        if (mass > 0) table[context * states.count + whole] = logScale + ln(mass);
      }
    }
    this.logs[h] = table;
    return table;
  }
}
