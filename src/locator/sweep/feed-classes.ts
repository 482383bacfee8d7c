import { ALL_CORES, type CoreSet, RETURN, SUPPLY } from '../../plan/cores.js';
import type { SpanEffect } from '../../plan/modes.js';
import type { PlanTables } from '../../plan/plan-tables.js';

// Feeds that no function can tell apart, now or further down, are one class: without supply and return nothing works;
// without speech it does not matter whether select arrives. So the 32 feeds of section 3 become 7 classes in the default
// plan: the reach of the feed (0 nothing, 1 lamp, 2 also sound, 3 everything) and, above 0, whether it is full or weak.
// In every plan the needs of its functions lie one within the other, and each is a reach; but two that nothing can tell
// apart are one, and where nothing weakens a feed there are no weak classes: every class is met on some trunk.

export const DEAD_FEED = 0;

/** The classes of feed of one plan. */
export class FeedClasses {
  readonly count: number;
  readonly full: number;
  /** The largest reach: that of a feed of all cores. */
  readonly most: number;
  /** By class: its reach, and 1 where it is weak. */
  readonly reach: Uint8Array;
  readonly weak: Uint8Array;
  /** The reach that each function needs. */
  readonly reachNeeded: Uint8Array;
  /** The supply and the cores whose short to return some mode is; and of these, by reach, the ones whose short stops what needs it. */
  readonly shortable: CoreSet;
  readonly shortableCores: readonly CoreSet[];
  readonly shortableByReach: readonly CoreSet[];
  /** Some mode weakens the feed. */
  readonly isWeakened: boolean;
  /** By reach, the cores it takes, and the largest set of cores that reaches no further. */
  private readonly needs: readonly CoreSet[];
  private readonly largest: readonly CoreSet[];

  constructor({ coresNeeded, spanEffects }: PlanTables) {
    const size = (set: CoreSet) => set.toString(2).replaceAll('0', '').length;
    const effects = Object.values(spanEffects);
    const lostAlone = effects.reduce(
      (set, { removes, shorts }) => set | (removes & RETURN ? 0 : removes | shorts),
      0,
    );
    const needs = [...new Set(coresNeeded)].sort((a, b) => size(a) - size(b));
    this.needs = [
      0,
      ...needs.filter((own, i) => {
        const next = needs[i + 1];
        return next === undefined || (next & ~own & lostAlone) !== 0;
      }),
    ];
    this.isWeakened = effects.some(({ weakens }) => weakens);
    this.most = this.needs.length - 1;
    this.count = (this.isWeakened ? 2 : 1) * this.most + 1;
    this.full = this.at(this.most, false);
    this.reach = Uint8Array.from({ length: this.count }, (_, feed) =>
      this.isWeakened ? Math.ceil(feed / 2) : feed,
    );
    this.weak = Uint8Array.from({ length: this.count }, (_, feed) =>
      this.isWeakened && feed > 0 && feed % 2 === 0 ? 1 : 0,
    );
    this.largest = this.needs.map((own, reach) => {
      const missing = (this.needs[reach + 1] ?? own) & ~own;
      return reach === 0 ? ALL_CORES & ~SUPPLY : ALL_CORES & ~(missing & -missing);
    });
    this.reachNeeded = Uint8Array.from(coresNeeded, (own) =>
      this.needs.findIndex((set) => (own & ~set) === 0),
    );
    this.shortable = effects.reduce((set, { shorts }) => set | shorts, SUPPLY);
    this.shortableCores = [1, 2, 4].filter((core) => core & this.shortable);
    this.shortableByReach = this.needs.map((own) => own & this.shortable);
  }

  /** Which functions a feed of some cores can serve: 0 none, else those that need this reach or a smaller one. */
  private reachOf(cores: CoreSet): number {
    let reach = 0;
    for (let next = 1; next <= this.most; next++) {
      const needed = this.needs[next] ?? 0;
      if ((cores & needed) === needed) reach = next;
    }
    return reach;
  }

  of(cores: CoreSet, weak: boolean): number {
    return this.at(this.reachOf(cores), weak);
  }

  at(reach: number, weak: boolean): number {
    if (reach === 0) return DEAD_FEED;
    return this.isWeakened ? 2 * reach - 1 + (weak ? 1 : 0) : reach;
  }

  /** Of a class of feed, what it is without some cores. */
  without(feed: number, cores: CoreSet): number {
    return this.of((this.largest[this.reach[feed] ?? 0] ?? 0) & ~cores, this.weak[feed] === 1);
  }

  /** The class of feed below a component with this effect, given the class above it. */
  below({ removes, weakens }: SpanEffect, feed: number): number {
    const cores = (this.largest[this.reach[feed] ?? 0] ?? 0) & ~removes;
    return this.of(cores, this.weak[feed] === 1 || weakens);
  }

  /** Of each class of feed, the one that serves the same of some reaches, as bits (1 << reach), and no others. */
  onlyReaches(reaches: number): Uint8Array {
    return Uint8Array.from({ length: this.count }, (_, feed) => {
      let reach = this.reach[feed] ?? 0;
      while (reach > 0 && !(reaches & (1 << reach))) reach--;
      return this.at(reach, this.weak[feed] === 1);
    });
  }
}
