/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { labelledEffects, type LabelStep } from './label-steps.js';
import type { LabelPair } from './label-terms.js';
import { EFFECT_COUNT, FEED_BELOW, FEED_COUNT, VIEW_ABOVE, VIEW_COUNT } from './run-effects.js';

/** What can arrive below a run, and with what chance, given the feed above and the view below. */
export interface Arrivals {
  /** Feeds that can arrive. */
  readonly feeds: readonly number[];
  /** P(feed below, view above) for each of them, at feed * VIEW_COUNT + view. */
  readonly chances: Float64Array;
}

/** A run on a trunk with continuity and loop readings: a chance over effects for each pair of labels at its ends. */
export class LabelledRun {
  readonly pairs: readonly LabelPair[];
  /** P(effect) by pair of labels, at pair * EFFECT_COUNT + effect. */
  private readonly effects: Float64Array;
  private readonly arrived = new Map<number, Arrivals>();

  /** @param starts the labels that can be at its lower end */
  constructor(
    readonly steps: readonly LabelStep[],
    starts: readonly number[],
  ) {
    const pairs: LabelPair[] = [];
    const blocks: Float64Array[] = [];
    for (const below of starts) {
      const made = labelledEffects(steps, below);
      for (let above = 0; above * EFFECT_COUNT < made.length; above++) {
        const block = made.subarray(above * EFFECT_COUNT, (above + 1) * EFFECT_COUNT);
        if (block.every((mass) => mass === 0)) continue;
        pairs.push({ above, below });
        blocks.push(block);
      }
    }
    this.pairs = pairs;
    this.effects = new Float64Array(pairs.length * EFFECT_COUNT);
    blocks.forEach((block, p) => {
      this.effects.set(block, p * EFFECT_COUNT);
    });
  }

  /** The most that any pair of labels has together, whatever the effect. */
  most(): number {
    return this.pairs.reduce((most, _, p) => {
      const own = this.effects.subarray(p * EFFECT_COUNT, (p + 1) * EFFECT_COUNT);
      return Math.max(
        most,
        own.reduce((sum, chance) => sum + chance, 0),
      );
    }, 0);
  }

  /** P(view above) of a run to a plain end, by pair of labels: nothing is seen there. */
  views(): Float64Array {
    const views = new Float64Array(this.pairs.length * VIEW_COUNT);
    for (let i = 0; i < this.effects.length; i++)
      views[Math.floor(i / EFFECT_COUNT) * VIEW_COUNT + VIEW_ABOVE[i % EFFECT_COUNT]!]! +=
        this.effects[i]!;
    return views;
  }

  /** By pair of labels. */
  arrivals(feed: number, view: number, pair: number): Arrivals {
    const key = (pair * FEED_COUNT + feed) * VIEW_COUNT + view;
    const known = this.arrived.get(key) ?? this.arrive(feed, view, pair);
    this.arrived.set(key, known);
    return known;
  }

  private arrive(feed: number, view: number, pair: number): Arrivals {
    const effects = this.effects.subarray(pair * EFFECT_COUNT, (pair + 1) * EFFECT_COUNT);
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
