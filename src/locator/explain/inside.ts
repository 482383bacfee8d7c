/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { System } from '../sweep/system.js';
import type { UpwardSweep } from '../sweep/sweep-trunk.js';
import type { InformativeNode } from './informative-nodes.js';
import { classOfFeed, feedOf, viewOf } from './local-cases.js';
import { VIEW_COUNT } from './run-effects.js';
import { type ScaledViews, scaledViews } from './view-products.js';

/** More than any informative node has over its `outer`. */
const MOST_CONTEXTS = 2 ** 24;

/** The most that any feed makes of a table by context and state of the sweeps: by context and view. */
function mostByView(table: Float64Array, { count, view }: System['states']): Float64Array {
  const contexts = table.length / count;
  const most = new Float64Array(contexts * VIEW_COUNT).fill(-Infinity);
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
  constructor(
    readonly system: System,
    private readonly informativeNodes: readonly InformativeNode[],
    private readonly sweeps: readonly UpwardSweep[],
    private readonly groups: number,
    readonly group: number,
  ) {}

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
    const { c, column } = this.columnOf(h, context, contexts);
    const { states, stateOf, feedClasses } = this.system;
    const views = new Float64Array(VIEW_COUNT);
    for (let view = 0; view < VIEW_COUNT; view++) {
      const s = stateOf(view, feed);
      if (s >= 0) views[view] = tables.top[at * states.count + s * columns + column]!;
    }
    const logScale = tables.topScale[scaleAt * feedClasses.count + feed * contexts + c]!;
    return scaledViews(views, logScale);
  }

  /** Where a context over an informative node's `outer` (its label and flags) is in the sweeps' tables of its span. */
  private columnOf(h: number, context: number, contexts: number): { c: number; column: number } {
    const { length } = this.informativeNodes[h]!.outer;
    const c = (context & ((1 << length) - 1)) * this.groups + this.group;
    return { c, column: (context >> length) * contexts + c };
  }

  /** By context and state of the sweeps. */
  private table(h: number): Float64Array {
    const known = this.logs[h];
    if (known) return known;
    const { trunk, node, outerCount } = this.informativeNodes[h]!;
    const { tables } = this.sweeps[trunk]!;
    const { at, columns, contexts, scaleAt } = tables.spans[node]!;
    const { count, feeds, feed } = this.system.states;
    const table = new Float64Array(count * outerCount);
    for (let context = 0; context < outerCount; context++) {
      const { c, column } = this.columnOf(h, context, contexts);
      for (let s = 0; s < count; s++) {
        const logScale = tables.bottomScale[scaleAt * feeds + feed[s]! * contexts + c]!;
        const mass = tables.bottom[at * count + s * columns + column]!;
        table[context * count + s] = mass > 0 ? logScale + Math.log(mass) : -Infinity;
      }
    }
    this.logs[h] = table;
    return table;
  }
}
