/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { type ComponentPriors, faultyChance, type SeriesPart } from './component-priors.js';
import { labelledEffects, type LabelStep, labelSteps } from './label-steps.js';
import { type LabelPair, ONE_PAIR } from './label-terms.js';
import { EFFECT_COUNT, FEED_COUNT, feedThrough, VIEW_COUNT, viewThrough } from './run-effects.js';

/** What can arrive below a run, and with what chance, given the feed above and the view below. */
export interface Arrivals {
  /** Feeds that can arrive. */
  readonly feeds: readonly number[];
  /** P(feed below, view above) for each of them, at feed * VIEW_COUNT + view. */
  readonly chances: Float64Array;
}

const VIEW_ABOVE = Uint8Array.from({ length: VIEW_COUNT * EFFECT_COUNT }, (_, i) =>
  viewThrough(i % EFFECT_COUNT, Math.floor(i / EFFECT_COUNT)),
);
const FEED_BELOW = Uint8Array.from({ length: FEED_COUNT * EFFECT_COUNT }, (_, i) =>
  feedThrough(i % EFFECT_COUNT, Math.floor(i / EFFECT_COUNT)),
);

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
  private known: { pairs: readonly LabelPair[]; effects: Float64Array } | null = null;
  private made: LabelStep[] | null = null;
  private places: RunGroup[] | null = null;
  private readonly arrived = new Map<number, Arrivals>();
  private readonly seenAbove = new Map<number, Float64Array>();

  /** @param nodes those that its spans lead into, from the top; `open` where the last one is a plain end of the trunk */
  constructor(
    readonly nodes: readonly number[],
    readonly open: boolean,
    private readonly priors: ComponentPriors,
  ) {}

  /** Its places from the top down. */
  groups(): readonly RunGroup[] {
    this.places ??= this.nodes.flatMap((node, i) => {
      const parts = this.priors.span(node);
      const span = { node, isStation: false, parts, prior: faultyChance(parts), otherFaults: 0 };
      const station = this.open || i < this.nodes.length - 1 ? this.priors.station(node) : null;
      if (!station) return [span];
      const otherFaults = this.priors.otherFaults(node);
      const prior = otherFaults + faultyChance([station]);
      return [span, { node, isStation: true, parts: [station], prior, otherFaults }];
    });
    return this.places;
  }

  /** What it makes of labels; one pair on a trunk without continuity and loop readings. */
  pairs(): readonly LabelPair[] {
    return this.work().pairs;
  }

  /** The most that any pair of labels has together, whatever the effect. */
  most(): number {
    const { pairs, effects } = this.work();
    return pairs.reduce((most, _, p) => {
      const own = effects.subarray(p * EFFECT_COUNT, (p + 1) * EFFECT_COUNT);
      return Math.max(
        most,
        own.reduce((sum, chance) => sum + chance, 0),
      );
    }, 0);
  }

  /** Its components with what they do to labels; null on a trunk without labels. */
  steps(): readonly LabelStep[] | null {
    const { model } = this.priors;
    if (!model.labels) return null;
    this.made ??= labelSteps(model, this.nodes, this.open, this.groups());
    return this.made;
  }

  /** P(view above) of an open run, by pair of labels: nothing is seen at its end. */
  views(): Float64Array {
    const { pairs, effects } = this.work();
    const views = new Float64Array(pairs.length * VIEW_COUNT);
    for (let i = 0; i < effects.length; i++)
      views[Math.floor(i / EFFECT_COUNT) * VIEW_COUNT + VIEW_ABOVE[i % EFFECT_COUNT]!]! +=
        effects[i]!;
    return views;
  }

  /** By pair of labels. */
  arrivals(feed: number, view: number, pair: number): Arrivals {
    const key = (pair * FEED_COUNT + feed) * VIEW_COUNT + view;
    const known = this.arrived.get(key) ?? this.arrive(feed, view, pair);
    this.arrived.set(key, known);
    return known;
  }

  /**
   * What one feed above makes of the states below: adds sum over views above of P(state below | feed above, view above)
   * * weight to `sums`, by state, for the views below that are listed.
   */
  pass(feed: number, views: readonly number[], weights: Float64Array, sums: Float64Array): void {
    const { effects } = this.work();
    for (let e = 0; e < EFFECT_COUNT; e++) {
      const chance = effects[e]!;
      if (chance === 0) continue;
      const below = FEED_BELOW[feed * EFFECT_COUNT + e]!;
      for (const view of views)
        sums[view * FEED_COUNT + below]! += chance * weights[VIEW_ABOVE[view * EFFECT_COUNT + e]!]!;
    }
  }

  /** P(feed and view below | feed above), by view above. */
  viewsAbove(feed: number, view: number, below: number): Float64Array {
    const key = (feed * VIEW_COUNT + view) * FEED_COUNT + below;
    const known = this.seenAbove.get(key);
    if (known) return known;
    const { effects } = this.work();
    const views = new Float64Array(VIEW_COUNT);
    for (let e = 0; e < EFFECT_COUNT; e++)
      if (FEED_BELOW[feed * EFFECT_COUNT + e] === below)
        views[VIEW_ABOVE[view * EFFECT_COUNT + e]!]! += effects[e]!;
    this.seenAbove.set(key, views);
    return views;
  }

  /** P(effect) by pair of labels, at pair * EFFECT_COUNT + effect. */
  private work(): { pairs: readonly LabelPair[]; effects: Float64Array } {
    if (this.known) return this.known;
    const steps = this.steps();
    this.known = steps
      ? this.workLabels(steps)
      : {
          pairs: ONE_PAIR,
          effects: this.priors.effectsOf(this.groups().flatMap((group) => group.parts)),
        };
    return this.known;
  }

  private workLabels(steps: readonly LabelStep[]) {
    const last = this.priors.model.labels!.nodes[this.nodes.at(-1)!]!;
    const starts = this.open ? [0] : [...new Set([...last.keep.to, ...last.short.to])];
    const pairs: LabelPair[] = [];
    const blocks: Float64Array[] = [];
    for (const below of starts.sort((a, b) => a - b)) {
      const made = labelledEffects(steps, below);
      for (let above = 0; above * EFFECT_COUNT < made.length; above++) {
        const block = made.subarray(above * EFFECT_COUNT, (above + 1) * EFFECT_COUNT);
        if (block.every((mass) => mass === 0)) continue;
        pairs.push({ above, below });
        blocks.push(block);
      }
    }
    const effects = new Float64Array(pairs.length * EFFECT_COUNT);
    blocks.forEach((block, p) => {
      effects.set(block, p * EFFECT_COUNT);
    });
    return { pairs, effects };
  }

  private arrive(feed: number, view: number, pair: number): Arrivals {
    const effects = this.work().effects.subarray(pair * EFFECT_COUNT, (pair + 1) * EFFECT_COUNT);
    const table = new Float64Array(FEED_COUNT * VIEW_COUNT);
    const found: number[] = [];
    const seen = new Uint8Array(FEED_COUNT);
    for (let e = 0; e < EFFECT_COUNT; e++) {
      if (effects[e] === 0) continue;
      const below = FEED_BELOW[feed * EFFECT_COUNT + e]!;
      if (!seen[below]) found.push(below);
      seen[below] = 1;
      table[below * VIEW_COUNT + VIEW_ABOVE[view * EFFECT_COUNT + e]!]! += effects[e]!;
    }
    const chances = new Float64Array(found.length * VIEW_COUNT);
    found.forEach((below, f) => {
      chances.set(table.subarray(below * VIEW_COUNT, (below + 1) * VIEW_COUNT), f * VIEW_COUNT);
    });
    return { feeds: found, chances };
  }
}
