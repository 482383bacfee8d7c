/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { type ComponentPriors, faultyChance, type SeriesPart } from './component-priors.js';
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
  private effects: Float64Array | null = null;
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

  /** P(view above) of an open run: nothing is seen at its end. */
  views(): Float64Array {
    const views = new Float64Array(VIEW_COUNT);
    const effects = this.chances();
    for (let e = 0; e < EFFECT_COUNT; e++) views[VIEW_ABOVE[e]!]! += effects[e]!;
    return views;
  }

  arrivals(feed: number, view: number): Arrivals {
    const key = feed * VIEW_COUNT + view;
    const known = this.arrived.get(key) ?? this.arrive(feed, view);
    this.arrived.set(key, known);
    return known;
  }

  /**
   * What one feed above makes of the states below: adds sum over views above of P(state below | feed above, view above)
   * * weight to `sums`, by state, for the views below that are listed.
   */
  pass(feed: number, views: readonly number[], weights: Float64Array, sums: Float64Array): void {
    const effects = this.chances();
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
    const effects = this.chances();
    const views = new Float64Array(VIEW_COUNT);
    for (let e = 0; e < EFFECT_COUNT; e++)
      if (FEED_BELOW[feed * EFFECT_COUNT + e] === below)
        views[VIEW_ABOVE[view * EFFECT_COUNT + e]!]! += effects[e]!;
    this.seenAbove.set(key, views);
    return views;
  }

  private chances(): Float64Array {
    this.effects ??= this.priors.effectsOf(this.groups().flatMap((group) => group.parts));
    return this.effects;
  }

  private arrive(feed: number, view: number): Arrivals {
    const effects = this.chances();
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
