/* eslint-disable @typescript-eslint/no-non-null-assertion -- loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ALL_CORES, type CoreSet, RETURN, SUPPLY } from '../../plan/cores.js';
import { type SpanEffect, viewAbove } from '../../plan/modes.js';
import type { PlanTables } from '../../plan/plan-tables.js';
import { type Block, classifyEffects, type EffectClasses } from './effect-classes.js';
import { DEAD_FEED, type FeedClasses } from './feed-classes.js';
import { needsOf, type PointKind, setsOf, type SpaceShape } from './space-shape.js';

// A message is a table over the states of a point: (view u, class of feed d). A core whose short is visible from a point
// cannot arrive there: seen at the port it is taken off the feed, and an open that hides it from the port also keeps
// the core from coming down. So of 8 × 7 pairs only 22 are possible, and each rule of section 3 becomes a short list
// of (state above, state below) pairs, made once by applying the rule to every pair.
// Where something was told while a cable was disconnected, a state has a view and a feed for the trunk whole and for
// each disconnection, those that can occur together; of these only as much as what was told then depends on.

export interface Unions {
  readonly left: Uint16Array;
  readonly right: Uint16Array;
  readonly union: Uint16Array;
}

/** By way of connecting the trunk. */
export type Tuple = readonly number[];
const keyOf = (tuple: Tuple) => tuple.join();
const compareTuples = (a: Tuple, b: Tuple) => {
  const at = a.findIndex((x, i) => x !== b[i]);
  return at < 0 ? 0 : a[at]! - b[at]!;
};

export class TooManyStates extends Error {}

/** The states of the points of one trunk, and what leads from one to another. */
export class StateSpace {
  readonly count: number;
  /** Feeds are numbered over all ways of connecting the trunk together; 0 is that nothing arrives in any. */
  readonly feeds: number;
  readonly feed: Uint16Array;
  /** The view with the trunk whole. */
  readonly view: Uint8Array;
  /** By way, by feed: the class of what arrives. */
  readonly classes: readonly Uint8Array[];
  /** By feed, with the trunk whole. */
  readonly reach: Uint8Array;
  readonly weak: Uint8Array;
  /** States in which nothing arrives, and what a station's short of the supply makes of each state of these. */
  readonly dead: Uint16Array;
  readonly shorted: Int32Array;
  /** 1 for the states that there are at a port that is good. */
  readonly fedByOk: Uint8Array;
  readonly fedByNothing: Uint8Array;
  /** 1 for the states in which nothing is seen. */
  readonly nothingBelow: Float64Array;
  private readonly needs: readonly CoreSet[];
  private readonly keeps: readonly Uint8Array[];
  private readonly views: readonly Tuple[];
  private readonly feedTuples: readonly Tuple[];
  private readonly viewAt: ReadonlyMap<string, number>;
  private readonly feedAt: ReadonlyMap<string, number>;
  private readonly index: Int32Array;
  private readonly viewOfState: Uint16Array;
  private madeUnions?: Unions;
  private made?: EffectClasses;
  private madeApart?: EffectClasses;

  constructor(
    private readonly plan: PlanTables,
    readonly feedClasses: FeedClasses,
    { reaches, seenIn, points }: SpaceShape,
    /** More states than these are a TooManyStates, as soon as that is known. */
    private readonly most = Infinity,
  ) {
    this.needs = needsOf(feedClasses, reaches);
    this.keeps = [~0, ...reaches].map((set) => feedClasses.onlyReaches(set));
    this.views = this.listViews({ reaches, seenIn }).sort(compareTuples);
    this.viewAt = new Map(this.views.map((view, v) => [keyOf(view), v]));
    const pairs = this.listPairs(points);
    const feeds = new Map(pairs.map(([, feed]) => [keyOf(feed), feed]));
    this.feedTuples = [...feeds.values()].sort(compareTuples);
    this.feedAt = new Map(this.feedTuples.map((feed, f) => [keyOf(feed), f]));
    this.feeds = this.feedTuples.length;
    this.classes = this.keeps.map((_, way) =>
      Uint8Array.from(this.feedTuples, (tuple) => tuple[way]!),
    );
    this.reach = this.classes[0]!.map((feed) => feedClasses.reach[feed]!);
    this.weak = this.classes[0]!.map((feed) => feedClasses.weak[feed]!);
    const cells = pairs.map(([v, feed]) => this.feedAt.get(keyOf(feed))! * this.views.length + v);
    const states = [...new Set(cells)]
      .sort((a, b) => a - b)
      .map((cell): [view: number, feed: number] => [
        cell % this.views.length,
        Math.floor(cell / this.views.length),
      ]);
    this.index = new Int32Array(this.views.length * this.feeds).fill(-1);
    states.forEach(([v, f], s) => (this.index[v * this.feeds + f] = s));
    this.count = states.length;
    this.feed = Uint16Array.from(states, ([, f]) => f);
    this.view = Uint8Array.from(states, ([v]) => this.views[v]![0]!);
    this.viewOfState = Uint16Array.from(states, ([v]) => v);
    const viewOf = (s: number) => this.views[states[s]![0]]!;
    this.dead = Uint16Array.from([...states.keys()].filter((s) => this.feed[s] === 0));
    this.shorted = Int32Array.from(states, ([v]) =>
      this.stateAt(
        this.views[v]!.map((own) => own | SUPPLY),
        this.feedTuples[0]!,
      ),
    );
    this.fedByOk = Uint8Array.from(states, ([, f], s) =>
      keyOf(this.startFeed(viewOf(s))) === keyOf(this.feedTuples[f]!) ? 1 : 0,
    );
    this.fedByNothing = this.fedByOk.map((_, s) => (this.feed[s] === 0 ? 1 : 0));
    this.nothingBelow = Float64Array.from(states, (_, s) =>
      viewOf(s).every((own) => own === 0) ? 1 : 0,
    );
  }

  /** Of a view with the trunk whole, what is told apart in a way. */
  needed(way: number, view: number): number {
    return view & this.needs[way]!;
  }

  /** -1 where it cannot be. */
  stateAt(view: Tuple, feed: Tuple): number {
    const [v, f] = [this.viewAt.get(keyOf(view)), this.feedAt.get(keyOf(feed))];
    return v === undefined || f === undefined ? -1 : this.index[v * this.feeds + f]!;
  }

  /** Every two states with one feed, and that of the union of their views: how spans join at a node. */
  get unions(): Unions {
    return (this.madeUnions ??= this.listUnions());
  }

  get effects(): EffectClasses {
    return (this.made ??= classifyEffects(
      this,
      this.plan,
      (effect) => this.blocksOf(effect),
      // Without the return nothing is seen and nothing arrives, whatever else is open.
      (mode) => (this.plan.spanEffects[mode].removes & RETURN ? 'no return' : mode),
    ));
  }

  /** Every mode by itself: continuity tells `parted` from `open-return`. */
  get effectsApart(): EffectClasses {
    return (this.madeApart ??= classifyEffects(
      this,
      this.plan,
      (effect) => this.blocksOf(effect),
      (mode) => mode,
    ));
  }

  /**
   * By state of a node below which the trunk was disconnected, that of what it feeds: nothing arrives there then, and
   * what is seen from there counts for nothing at the node. -1 where that cannot be.
   */
  belowCut(way: number): Int32Array {
    return Int32Array.from({ length: this.count }, (_, s) => {
      const [view, feed] = this.tuplesOf(s);
      if (view[way] !== 0) return -1;
      return this.stateAt(view.with(way, view[0]! & this.needs[way]!), feed.with(way, DEAD_FEED));
    });
  }

  /** By feed of such a node, that of what it feeds; -1 where that cannot be. */
  feedBelowCut(way: number): Int32Array {
    return Int32Array.from(
      this.feedTuples,
      (feed) => this.feedAt.get(keyOf(feed.with(way, DEAD_FEED))) ?? -1,
    );
  }

  tuplesOf(s: number): [view: Tuple, feed: Tuple] {
    return [this.views[this.viewOfState[s]!]!, this.feedTuples[this.feed[s]!]!];
  }

  private listViews(shape: Omit<SpaceShape, 'points'>): number[][] {
    const sets = setsOf(this.feedClasses, shape);
    let views: number[][] = [this.needs.map(() => 0)];
    this.feedClasses.shortableCores.forEach((core, c) => {
      views = views.flatMap((view) =>
        sets[c]!.map((set) => view.map((own, way) => (set & (1 << way) ? own | core : own))),
      );
    });
    return views;
  }

  /** What a good port feeds where this is seen. */
  startFeed(view: Tuple): number[] {
    return view.map((own, way) => this.keeps[way]![this.feedClasses.of(ALL_CORES & ~own, false)]!);
  }

  /** Views, by number, and feeds that can be together at some point. */
  private listPairs(points: readonly PointKind[]): [view: number, feed: Tuple][] {
    const pairs = new Map<string, [number, Tuple]>();
    for (const { cutOff, beyond } of points) {
      const arriving = this.listArriving(beyond);
      this.views.forEach((view, v) => {
        if (!view.every((own, way) => beyond & (1 << way) || own === (view[0]! & this.needs[way]!)))
          return;
        for (const feed of arriving) {
          const fed = feed.map((own, way) =>
            cutOff & (1 << way)
              ? DEAD_FEED
              : this.keeps[way]![this.feedClasses.without(own, view[way]!)]!,
          );
          pairs.set(`${v} ${keyOf(fed)}`, [v, fed]);
          if (pairs.size > this.most) throw new TooManyStates();
        }
      });
    }
    return [...pairs.values()];
  }

  /**
   * What can arrive at a point but for the shorts that are seen from it. Shorts elsewhere are not hidden by what is
   * disconnected beyond the point.
   */
  private listArriving(beyond: number): Tuple[] {
    const found = new Map<string, Tuple>();
    const add = (feed: Tuple) => found.set(keyOf(feed), feed);
    add(this.needs.map(() => DEAD_FEED));
    for (const view of this.views)
      add(this.startFeed(view.map((own, way) => (beyond & (1 << way) ? view[0]! : own))));
    for (const feed of found.values())
      for (const effect of Object.values(this.plan.spanEffects)) add(this.feedPast(effect, feed));
    return [...found.values()];
  }

  /** The feed below a component with an effect, given that above it. */
  feedPast(effect: SpanEffect, feed: Tuple): number[] {
    return feed.map((own, way) => this.keeps[way]![this.feedClasses.below(effect, own)]!);
  }

  /** The view above a component with an effect, given that below it. */
  viewPast(effect: SpanEffect, view: Tuple): number[] {
    return view.map((own, way) => viewAbove(effect, own) & this.needs[way]!);
  }

  private blocksOf(effect: SpanEffect): Block[] {
    const viewPast = this.views.map((view) => this.viewAt.get(keyOf(this.viewPast(effect, view)))!);
    return this.feedTuples.flatMap((feed, f) => {
      const below = this.feedAt.get(keyOf(this.feedPast(effect, feed)))!;
      const pairs = viewPast.flatMap((past, v): [number, number][] => {
        const above = this.index[past * this.feeds + f]!;
        const under = this.index[v * this.feeds + below]!;
        return above >= 0 && under >= 0 ? [[above, under]] : [];
      });
      return pairs.length > 0 ? [{ feedAbove: f, feedBelow: below, pairs }] : [];
    });
  }

  private listUnions(): Unions {
    const joins = this.views.map((a) =>
      this.views.map((b) => this.viewAt.get(keyOf(a.map((own, way) => own | b[way]!)))!),
    );
    const [left, right, union]: [number[], number[], number[]] = [[], [], []];
    const at = (v: number, f: number) => this.index[v * this.feeds + f]!;
    for (let f = 0; f < this.feeds; f++)
      for (let a = 0; a < this.views.length; a++)
        for (let b = 0; b < this.views.length; b++) {
          const both = at(joins[a]![b]!, f);
          if (at(a, f) < 0 || at(b, f) < 0 || both < 0) continue;
          left.push(at(a, f));
          right.push(at(b, f));
          union.push(both);
        }
    return {
      left: Uint16Array.from(left),
      right: Uint16Array.from(right),
      union: Uint16Array.from(union),
    };
  }
}
