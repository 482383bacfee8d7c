/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { zeroTable } from '../numbers/zero-table.js';
import type { InformativeNode } from './informative-nodes.js';
import type { Inside } from './inside.js';
import type { LabelledRun } from './labelled-run.js';
import type { Cases } from './local-cases.js';
import type { Opening } from './opening.js';
import { FEED_COUNT, VIEW_COUNT } from './run-effects.js';
import type { WorkLeft } from './work.js';

const STATES_OF_NODE = FEED_COUNT * VIEW_COUNT;

/** On a trunk with labels, what can arrive below the runs of informative nodes. */
export class ArrivalTables {
  /** Those of states that had not enough: most of them, and each as long as all that is above. */
  private spare: Float64Array[] = [];

  constructor(
    private readonly informativeNodes: readonly InformativeNode[],
    private readonly inside: Inside,
    private readonly work: WorkLeft,
  ) {}

  /** P(run), as Edge.chances, by state below with one of these views. */
  of(
    h: number,
    j: number,
    cases: Cases,
    open: Opening,
    run: LabelledRun,
    views: readonly number[],
  ): Map<number, Float64Array> {
    const all = new Map<number, Float64Array>();
    for (const view of views)
      this.arrive(run, view, cases, this.rowsTo(h, j, view, cases, open), all);
    return all;
  }

  /** A table that nobody needs any more. */
  giveBack(table: Float64Array): void {
    this.spare.push(table);
  }

  /** Pairs of labels * cases + case of which anything can come to a view below: most labels go with few views. */
  private rowsTo(h: number, j: number, view: number, { feeds }: Cases, open: Opening): number[] {
    const { below, contextBelow, pairBelow } = this.informativeNodes[h]!;
    const rows = new Set<number>();
    for (const at of open.active) {
      const context = Math.floor(at / feeds.length);
      if (this.inside.most(below[j]!, contextBelow[j]![context]!, view) > -Infinity)
        rows.add(pairBelow[j]![context]! * feeds.length + (at % feeds.length));
    }
    return [...rows];
  }

  /** P(run), as Edge.chances, by state below with this view. */
  private arrive(
    run: LabelledRun,
    view: number,
    { feeds, width }: Cases,
    rows: readonly number[],
    all: Map<number, Float64Array>,
  ): void {
    const size = run.pairs.length * feeds.length * width;
    this.work.spend(rows.length * STATES_OF_NODE);
    for (const row of rows) {
      const arrivals = run.arrivals(
        feeds[row % feeds.length]!,
        view,
        Math.floor(row / feeds.length),
      );
      const at = row * width;
      for (let f = 0; f < arrivals.feeds.length; f++) {
        const state = view * FEED_COUNT + arrivals.feeds[f]!;
        let chances = all.get(state);
        if (!chances) all.set(state, (chances = this.emptyTable(size)));
        for (let v = 0; v < width; v++) chances[at + v]! += arrivals.chances[f * VIEW_COUNT + v]!;
      }
    }
  }

  private emptyTable(size: number): Float64Array {
    if (this.spare.at(-1)?.length !== size) this.spare = [];
    return this.spare.pop()?.fill(0) ?? zeroTable(size);
  }
}
