/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { ComponentPriors, SeriesPart } from './component-priors.js';
import { labelSteps } from './label-steps.js';
import { type LabelPair, ONE_PAIR } from './label-terms.js';
import { LabelledRun } from './labelled-run.js';
import { feedOf, viewOf } from './local-cases.js';
import { RunBounds } from './run-bounds.js';
import { FEED_COUNT, VIEW_COUNT, WEAK_FEED } from './run-effects.js';
import { seriesActs } from './series-acts.js';
import { feedsOnTheWay, leadsTo, viewsThrough } from './views-through.js';
import type { WorkLeft } from './work.js';
import { zeroTable } from '../numbers/zero-table.js';

/** A span of a run, or a station between two of its spans. */
export interface RunGroup {
  /** The node that the span leads into, or the station's. */
  readonly node: number;
  readonly isStation: boolean;
  readonly parts: readonly SeriesPart[];
  /** P(at least one faulty) before anything was known. */
  readonly prior: number;
  /** Of a station: P(a fault that nothing on the trunk shows). */
  readonly otherFaults: number;
}

/**
 * Spans in series with nothing known in between: from a node or the port down to the next node that something is known
 * of, or to the end of the trunk.
 */
export class Run {
  private labels: LabelledRun | null = null;
  private places: RunGroup[] | null = null;
  private series: Float64Array | null = null;
  private most: RunBounds | null = null;
  private seenAbove: Map<number, Float64Array> | null = null;

  /** @param nodes those that its spans lead into, from the top; `open` where the last one is a plain end of the trunk */
  constructor(
    readonly nodes: readonly number[],
    readonly open: boolean,
    private readonly priors: ComponentPriors,
  ) {}

  /** Its places from the top down. */
  groups(): readonly RunGroup[] {
    if (this.places) return this.places;
    const places: RunGroup[] = [];
    this.nodes.forEach((node, i) => {
      const parts = this.priors.span(node);
      const prior = this.priors.spanBefore(node);
      places.push({ node, isStation: false, parts, prior, otherFaults: 0 });
      const station = this.open || i < this.nodes.length - 1 ? this.priors.station(node) : null;
      if (!station) return;
      const otherFaults = this.priors.otherFaults(node);
      places.push({
        node,
        isStation: true,
        parts: [station],
        prior: this.priors.stationBefore(node),
        otherFaults,
      });
    });
    this.places = places;
    return this.places;
  }

  private acts(): Float64Array {
    this.series ??= seriesActs(this.groups());
    return this.series;
  }

  /** What it makes of labels; null on a trunk without continuity and loop readings. */
  labelled(): LabelledRun | null {
    const { model } = this.priors;
    if (!model.labels) return null;
    if (this.labels) return this.labels;
    const { keep, short } = model.labels.nodes[this.nodes.at(-1)!]!;
    const starts = this.open ? [0] : [...new Set([...keep.to, ...short.to])];
    starts.sort((a, b) => a - b);
    const steps = labelSteps(model, this.nodes, this.open, this.groups());
    this.labels = new LabelledRun(steps, starts);
    return this.labels;
  }

  /** The pairs of labels at its ends; without labels one. */
  pairs(): readonly LabelPair[] {
    return this.labelled()?.pairs ?? ONE_PAIR;
  }

  /** P(view above) of a run to a plain end, by pair of labels. What is fed into it does not matter. */
  views(): Float64Array {
    return this.labelled()?.views() ?? this.viewsAbove(WEAK_FEED, 0, WEAK_FEED);
  }

  /** P(feed and view below | feed above), by view above; on a trunk without labels. */
  viewsAbove(feed: number, view: number, below: number, work?: WorkLeft): Float64Array {
    const key = (feed * VIEW_COUNT + view) * FEED_COUNT + below;
    this.seenAbove ??= new Map();
    const known = this.seenAbove.get(key);
    if (known) return known;
    const acts = this.acts();
    work?.spend(acts.length * feedsOnTheWay(feed, below).length);
    const views = viewsThrough(acts, feed, below, view);
    this.seenAbove.set(key, views);
    return views;
  }

  /** P(state below), as Edge.chances, by the feeds into it; on a trunk without labels. */
  chancesTo(state: number, feeds: readonly number[], work: WorkLeft): Float64Array {
    const [first] = feeds;
    const [view, below] = [viewOf(state), feedOf(state)];
    if (first !== undefined && feeds.length === 1) return this.viewsAbove(first, view, below, work);
    const chances = zeroTable(feeds.length * VIEW_COUNT);
    feeds.forEach((feed, k) => {
      if (leadsTo(feed, below))
        chances.set(this.viewsAbove(feed, view, below, work), k * VIEW_COUNT);
    });
    return chances;
  }

  /** What it can do at the most, on a trunk without labels. */
  bounds(): RunBounds {
    this.most ??= new RunBounds(this.acts());
    return this.most;
  }
}
