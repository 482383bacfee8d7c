/* eslint-disable @typescript-eslint/no-non-null-assertion -- loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { power } from '../../elementary/power.js';
import { SUPPLY } from '../../plan/cores.js';
import type { SpanEffect } from '../../plan/modes.js';
import type { LabelPlan, NodeLabels, SpanLabels } from '../readings/label-plan.js';
import type { LabelJoin } from '../readings/label-joins.js';
import type { Moves } from '../readings/label-space.js';
import type { StateSpace, Tuple } from '../sweep/state-space.js';
import type { TrunkModel } from '../sweep/trunk-model.js';
import { zeroTable } from '../numbers/zero-table.js';

// What was told while a cable was off hangs on views and feeds that an explanation does not tell. They go through it as
// labels, like those of readings: a label is the view and the feed of every way of connecting the trunk but the whole.
// Views come from below and feeds from above, so what a component does to labels is a relation, not a function.

/** Views and feeds of all ways but the whole, at one point; 0 in those in which the point is cut off. */
interface CutLabel {
  readonly view: Tuple;
  readonly feed: Tuple;
}

const keyOf = ({ view, feed }: CutLabel) => `${view.join()} ${feed.join()}`;

/** The labels of all points that the same disconnections cut off: ways as bits. */
class LabelSet {
  readonly labels: readonly CutLabel[];
  readonly feeds: readonly Tuple[];
  private readonly numbers: ReadonlyMap<string, number>;

  constructor(
    readonly space: StateSpace,
    readonly cutOff: number,
  ) {
    const found = new Map<string, CutLabel>();
    for (let s = 0; s < space.count; s++) {
      const [view, feed] = space.tuplesOf(s);
      const canBe = view.every(
        (own, way) =>
          !this.isCutOff(way) || (feed[way] === 0 && own === space.needed(way, view[0] ?? 0)),
      );
      if (!canBe) continue;
      const label = { view: this.without(view).slice(1), feed: this.without(feed).slice(1) };
      found.set(keyOf(label), label);
    }
    this.labels = [...found.values()];
    this.numbers = new Map(this.labels.map((label, l) => [keyOf(label), l]));
    this.feeds = [...new Map(this.labels.map(({ feed }) => [feed.join(), feed])).values()];
  }

  numberOf({ view, feed }: CutLabel): number {
    const label = {
      view: view.map((own, w) => (this.isCutOff(w + 1) ? 0 : own)),
      feed: feed.map((own, w) => (this.isCutOff(w + 1) ? 0 : own)),
    };
    return this.numbers.get(keyOf(label)) ?? -1;
  }

  /** The views of all ways, given that with the trunk whole: what lies beyond a disconnection sees the same in it. */
  viewsOf({ view }: CutLabel, whole: number): number[] {
    return [
      whole,
      ...view.map((own, w) => (this.isCutOff(w + 1) ? this.space.needed(w + 1, whole) : own)),
    ];
  }

  private isCutOff(way: number): boolean {
    return (this.cutOff & (1 << way)) !== 0;
  }

  private without(tuple: Tuple): number[] {
    return tuple.map((own, way) => (this.isCutOff(way) ? 0 : own));
  }
}

/** Squares of labels at all nodes together: more make more products than can be summed over in an answer's time. */
const MOST_CUT_PRODUCTS = 10_000;

/** The labels of one trunk. */
export class CutLabels {
  readonly plan: LabelPlan;
  private readonly sets = new Map<number, LabelSet>();
  private readonly spanMoves = new Map<LabelSet, SpanLabels>();
  /** By node, of the span into it; and of what it feeds. */
  private readonly above: readonly LabelSet[];
  private readonly below: readonly LabelSet[];

  private constructor(
    private readonly model: TrunkModel,
    private readonly space: StateSpace,
  ) {
    const { tree, cutAt } = model;
    const above = new Array<number>(tree.count).fill(0);
    const below = new Array<number>(tree.count).fill(0);
    tree.parent.forEach((parent, n) => {
      above[n] = below[parent] ?? 0;
      const cut = cutAt[n] ?? 0;
      below[n] = (above[n] ?? 0) | (cut > 0 ? 1 << cut : 0);
    });
    this.above = above.map((cutOff) => this.setOf(cutOff));
    this.below = below.map((cutOff) => this.setOf(cutOff));
    this.plan = this.makePlan();
  }

  /** Null where nothing was told of a trunk while it was disconnected; undefined where there are too many labels. */
  static of(model: TrunkModel): CutLabels | null | undefined {
    const { space } = model;
    if (space.classes.length === 1) return null;
    // Nowhere are there more than where nothing is cut off.
    if (power(new LabelSet(space, 0).labels.length, 2) > MOST_CUT_PRODUCTS) return undefined;
    const made = new CutLabels(model, space);
    const products = made.above.reduce((sum, { labels }) => sum + power(labels.length, 2), 0);
    return products > MOST_CUT_PRODUCTS ? undefined : made;
  }

  /** The state of the sweeps at the bottom of the span into a node, or of its top; -1 where it cannot be. */
  stateOf(n: number, view: number, feed: number, label: number): number {
    const set = this.above[n];
    const ways = set?.labels[label];
    return set && ways ? this.space.stateAt(set.viewsOf(ways, view), [feed, ...ways.feed]) : -1;
  }

  /** The feed of the sweeps at a node; -1 where it cannot be in this state. */
  feedOf(n: number, { view, feed }: { view: number; feed: number }, label: number): number {
    const state = this.stateOf(n, view, feed, label);
    return state < 0 ? -1 : this.space.feed[state]!;
  }

  /** Whether what a port feeds into the trunk goes with what is seen there, in all ways. */
  startsWith(label: number, isFed: boolean): boolean {
    const ways = this.setOf(0).labels[label];
    if (!ways) return false;
    const start = this.space.startFeed([0, ...ways.view]);
    return ways.feed.every((feed, w) => feed === (isFed ? start[w + 1] : 0));
  }

  private setOf(cutOff: number): LabelSet {
    const known = this.sets.get(cutOff) ?? new LabelSet(this.space, cutOff);
    this.sets.set(cutOff, known);
    return known;
  }

  private makePlan(): LabelPlan {
    const { tree, cutAt } = this.model;
    const nodes = tree.children.map((children, n): NodeLabels => {
      const [above, below] = [this.above[n] ?? this.setOf(0), this.below[n] ?? this.setOf(0)];
      const isEnd = children.length === 0;
      const moves = (isShorted: boolean) =>
        isEnd ? endMoves(above, isShorted) : nodeMoves(below, above, cutAt[n] ?? 0, isShorted);
      return {
        joins: joinsOf(below, children.length),
        labels: isEnd ? 1 : below.labels.length,
        keep: moves(false),
        short: moves(true),
        closes: false,
      };
    });
    const first = this.setOf(0);
    return {
      spans: this.above.map((set) => this.spanOf(set)),
      nodes,
      port: {
        joins: joinsOf(first, tree.first.length),
        weight: zeroTable(first.labels.length).fill(1),
      },
      isInSteps: false,
    };
  }

  private spanOf(set: LabelSet): SpanLabels {
    const known = this.spanMoves.get(set);
    if (known) return known;
    const moves = this.model.effects.does.map((effect) => spanMoves(set, effect));
    const labels = set.labels.length;
    const none = new Uint8Array(labels);
    const shape = { labels, links: moves, seen: none, unseen: none };
    const component = { moves, shape };
    const made = { labels, junctionOut: component, cable: component, junctionIn: component };
    this.spanMoves.set(set, made);
    return made;
  }
}

/** Null where labels stay. */
function spanMoves(set: LabelSet, effect: SpanEffect): Moves | null {
  const { space } = set;
  const moves = relation(set, set, (below, feedAbove) => {
    const feedBelow = space.feedPast(effect, [0, ...feedAbove]).slice(1);
    if (feedBelow.join() !== below.feed.join()) return null;
    return space.viewPast(effect, [0, ...below.view]).slice(1);
  });
  const stays = moves.from.length === set.labels.length;
  return stays && moves.from.every((label, m) => moves.to[m] === label) ? null : moves;
}

/** Past a node: nothing of what lies beyond a disconnection is seen or fed. */
function nodeMoves(below: LabelSet, above: LabelSet, cut: number, isShorted: boolean): Moves {
  return relation(below, above, (label, feedAbove) => {
    const goes = label.feed.every((feed, w) => feed === (w + 1 === cut ? 0 : feedAbove[w]));
    if (!goes) return null;
    return label.view.map((own, w) => (w + 1 === cut ? 0 : own) | (isShorted ? SUPPLY : 0));
  });
}

/** From below the last node, where nothing is, to above it. */
function endMoves({ labels, cutOff }: LabelSet, isShorted: boolean): Moves {
  const seen = isShorted ? SUPPLY : 0;
  const to = [...labels.keys()].filter((l) =>
    labels[l]?.view.every((own, w) => own === (cutOff & (2 << w) ? 0 : seen)),
  );
  return movesOf(to.map((label) => [0, label]));
}

/** @param viewAbove given a label below and feeds above; null where they do not go together */
function relation(
  below: LabelSet,
  above: LabelSet,
  viewAbove: (below: CutLabel, feedAbove: Tuple) => number[] | null,
): Moves {
  return movesOf(
    below.labels.flatMap((label, from) =>
      above.feeds.flatMap((feed): [number, number][] => {
        const view = viewAbove(label, feed);
        const to = view ? above.numberOf({ view, feed }) : -1;
        return to < 0 ? [] : [[from, to]];
      }),
    ),
  );
}

/** Branches of one feed, and what is seen in them together. */
function joinsOf(set: LabelSet, branches: number): LabelJoin[] {
  if (branches < 2) return [];
  const { labels } = set;
  const found = labels.flatMap((a, left) =>
    labels.flatMap((b, right) => {
      if (a.feed.join() !== b.feed.join()) return [];
      const view = a.view.map((own, w) => own | (b.view[w] ?? 0));
      const out = set.numberOf({ view, feed: a.feed });
      return out < 0 ? [] : [{ left, right, out }];
    }),
  );
  const pairs = {
    left: Uint16Array.from(found, ({ left }) => left),
    right: Uint16Array.from(found, ({ right }) => right),
    out: Uint16Array.from(found, ({ out }) => out),
    weight: zeroTable(found.length).fill(1),
  };
  const join = { labels: labels.length, pairs: new Map([[0, pairs]]), loopCores: 0 };
  return Array.from({ length: branches - 1 }, () => join);
}

function movesOf(entries: readonly (readonly [from: number, to: number])[]): Moves {
  return {
    from: Uint16Array.from(entries, ([from]) => from),
    to: Uint16Array.from(entries, ([, to]) => to),
    weight: zeroTable(entries.length).fill(1),
  };
}
