/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { type EffectMasses, labelledEffects, labelMasses, type LabelStep } from './label-steps.js';
import type { LabelPair } from './label-terms.js';
import { EFFECT_COUNT, FEED_BELOW, FEED_COUNT, VIEW_ABOVE, VIEW_COUNT } from './run-effects.js';
import { zeroTable } from '../numbers/zero-table.js';

const NO_EFFECTS: EffectMasses = { effects: Uint8Array.of(), masses: Float64Array.of() };

/** What can arrive below a run, and with what chance, given the feed above and the view below. */
export interface Arrivals {
  /** Feeds that can arrive. */
  readonly feeds: readonly number[];
  /** P(feed below, view above) for each of them, at feed * VIEW_COUNT + view. */
  readonly chances: Float64Array;
}

/**
 * A run on a trunk with continuity and loop readings: a chance over effects for each pair of labels at its ends. Which pairs
 * there are is told by labels alone; effects are only followed from the labels below that are asked for, mostly a few.
 */
export class LabelledRun {
  readonly pairs: readonly LabelPair[];
  /** The most that any pair of labels has together, whatever the effect. */
  readonly most: number;
  /** By label below and label above. */
  private readonly effects = new Map<number, ReturnType<typeof labelledEffects>>();
  private readonly arrived = new Map<number, Arrivals>();

  /** @param starts the labels that can be at its lower end */
  constructor(
    readonly steps: readonly LabelStep[],
    starts: readonly number[],
  ) {
    const masses = labelMasses(steps, starts);
    const labelsAbove = masses.length / starts.length;
    this.pairs = starts.flatMap((below, s) =>
      [...Array(labelsAbove).keys()].flatMap((above) =>
        masses[above * starts.length + s]! > 0 ? [{ above, below }] : [],
      ),
    );
    this.most = masses.reduce((most, mass) => Math.max(most, mass), 0);
  }

  /** P(effect) of one pair of labels. */
  private effectsOf({ above, below }: LabelPair): EffectMasses {
    const known = this.effects.get(below) ?? labelledEffects(this.steps, below);
    this.effects.set(below, known);
    return known[above] ?? NO_EFFECTS;
  }

  /** P(view above) of a run to a plain end, by pair of labels: nothing is seen there. */
  views(): Float64Array {
    const views = zeroTable(this.pairs.length * VIEW_COUNT);
    this.pairs.forEach((pair, p) => {
      const { effects, masses } = this.effectsOf(pair);
      effects.forEach((effect, i) => {
        views[p * VIEW_COUNT + VIEW_ABOVE[effect]!]! += masses[i]!;
      });
    });
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
    const { effects, masses } = this.effectsOf(this.pairs[pair]!);
    const feeds: number[] = [];
    ROW_OF.fill(-1);
    for (let i = 0; i < effects.length; i++) {
      const below = FEED_BELOW[feed * EFFECT_COUNT + effects[i]!]!;
      if (ROW_OF[below]! < 0) ROW_OF[below] = feeds.push(below) - 1;
    }
    const chances = zeroTable(feeds.length * VIEW_COUNT);
    for (let i = 0; i < effects.length; i++) {
      const row = ROW_OF[FEED_BELOW[feed * EFFECT_COUNT + effects[i]!]!]! * VIEW_COUNT;
      chances[row + VIEW_ABOVE[view * EFFECT_COUNT + effects[i]!]!]! += masses[i]!;
    }
    return { feeds, chances };
  }
}

/** By feed, its position among those that arrive; filled anew each time. */
const ROW_OF = new Int8Array(FEED_COUNT);
