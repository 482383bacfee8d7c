/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { SiteModel } from '../sweep/site.js';
import { logAdd } from '../sweep/log-add.js';
import type { Edge, Graph, HubState } from './hub-state.js';
import type { Hub } from './hubs.js';
import type { Inside } from './inside.js';
import { casesOf, type Cases, feedOf, viewOf } from './local-cases.js';
import { logSum } from './log-sum.js';
import { opening, type Opening, through } from './opening.js';
import type { Run } from './run.js';
import { FEED_COUNT, VIEW_COUNT } from './run-effects.js';

export interface GraphScope {
  readonly site: SiteModel;
  readonly hubs: readonly Hub[];
  readonly inside: Inside;
}

/** A state below that an edge may lead to. */
interface Candidate {
  readonly state: number;
  readonly chances: Float64Array;
  readonly outside: Float64Array;
  /** No explanation with this edge has more. */
  readonly bound: number;
}

/** A state below, where there is one context and one case. */
interface Plain {
  readonly state: number;
  readonly bound: number;
  readonly outside: number;
}

/** Masses by state below, of one step at a time. */
const SUMS = new Float64Array(VIEW_COUNT * FEED_COUNT);

class Grower {
  private readonly positions: Map<number, number>[];
  readonly graph: Graph;
  constructor(
    private readonly scope: GraphScope,
    private readonly logLeast: number,
    private readonly narrow: boolean,
  ) {
    this.graph = {
      group: scope.inside.group,
      states: scope.hubs.map(() => []),
      cut: false,
      passedOver: [],
    };
    this.positions = scope.hubs.map(() => new Map<number, number>());
  }

  /** The position of a state of a hub, which is made if it is new. */
  meet(h: number, state: number, outside: Float64Array): number {
    const states = this.graph.states[h]!;
    const known = this.positions[h]!.get(state);
    if (known !== undefined) {
      const most = states[known]!.outside;
      outside.forEach((log, context) => (most[context] = Math.max(most[context]!, log)));
      return known;
    }
    const { site, hubs, inside } = this.scope;
    const cases = casesOf(site, hubs[h]!, inside.group, state);
    this.positions[h]!.set(state, states.length);
    return states.push({ state, cases, outside, edges: [] }) - 1;
  }

  grow(): Graph {
    this.scope.hubs.forEach(({ below }, h) => {
      for (const from of this.graph.states[h]!)
        below.forEach((_, j) => from.edges.push(this.edges(h, j, from)));
    });
    return this.graph;
  }

  private edges(h: number, j: number, from: HubState): Edge[] {
    const open = opening(this.scope.hubs[h]!, h, j, from, this.scope.inside);
    const isPlain =
      open.logs.length === 1 &&
      from.cases.width > 1 &&
      this.scope.hubs[h]!.runs[j]!.pairs().length === 1;
    const found = isPlain
      ? this.plainCandidates(h, j, from, open)
      : this.candidates(h, j, from, open);
    const kept = this.narrow ? this.mostProbable(found) : found;
    const { below, pairBelow } = this.scope.hubs[h]!;
    return kept.map(({ state, chances, outside }) => ({
      to: this.meet(below[j]!, state, outside),
      chances,
      through: below.length === 1 ? through(from.cases, chances, pairBelow[0]!) : null,
    }));
  }

  private mostProbable(found: readonly Candidate[]): Candidate[] {
    const [first, ...others] = [...found].sort((a, b) => b.bound - a.bound);
    this.graph.passedOver.push(...others.map(({ bound }) => bound));
    return first ? [first] : [];
  }

  /** Views below that some explanation of enough has. */
  private viewsBelow(h: number, j: number, open: Opening, width: number): number[] {
    const most = Float64Array.from({ length: VIEW_COUNT }, (_, view) =>
      this.mostBelow(h, j, view, open, width),
    );
    const views = [...most.keys()].filter((view) => most[view]! > -Infinity);
    const kept = views.filter((view) => most[view]! >= this.logLeast);
    this.graph.cut ||= kept.length < views.length;
    return kept;
  }

  private boundOf(h: number, j: number, state: number, outside: Float64Array): number {
    const to = this.scope.hubs[h]!.below[j]!;
    return logSum(outside.map((log, context) => log + this.scope.inside.at(to, context, state)));
  }

  /** States below that have enough, and P(run) as Edge.chances. */
  private candidates(h: number, j: number, from: HubState, open: Opening): Candidate[] {
    const { width } = from.cases;
    const { kind, runs } = this.scope.hubs[h]!;
    const all = new Map<number, Float64Array>();
    if (kind === 'site') for (const port of [0, 1]) all.set(port, Float64Array.of(1));
    else
      for (const view of this.viewsBelow(h, j, open, width))
        this.arrive(runs[j]!, view, from.cases, all);
    return [...all].flatMap(([state, chances]) => {
      const outside = this.outsideBelow(h, j, from, open, chances);
      const bound = this.boundOf(h, j, state, outside);
      this.graph.cut ||= bound < this.logLeast && bound > -Infinity;
      if (bound < this.logLeast || bound === -Infinity) return [];
      return { state, chances, outside, bound };
    });
  }

  /** P(run), as Edge.chances, by state below with this view. */
  private arrive(
    run: Run,
    view: number,
    { feeds, width }: Cases,
    all: Map<number, Float64Array>,
  ): void {
    const pairs = run.pairs().length;
    for (let pair = 0; pair < pairs; pair++)
      feeds.forEach((feed, k) => {
        const arrivals = run.arrivals(feed, view, pair);
        arrivals.feeds.forEach((below, f) => {
          const state = view * FEED_COUNT + below;
          const chances = all.get(state) ?? new Float64Array(pairs * feeds.length * width);
          all.set(state, chances);
          const at = (pair * feeds.length + k) * width;
          for (let v = 0; v < width; v++) chances[at + v]! += arrivals.chances[f * VIEW_COUNT + v]!;
        });
      });
  }

  /** The same where there is one context and one case: nearly always, and most states below have too little. */
  private plainCandidates(h: number, j: number, from: HubState, open: Opening): Candidate[] {
    const to = this.scope.hubs[h]!.below[j]!;
    const run = this.scope.hubs[h]!.runs[j]!;
    const [feed] = from.cases.feeds;
    const views = this.plainViews(to, open);
    SUMS.fill(0);
    run.pass(feed!, views, open.weights, SUMS);
    const worth = this.worthLooking(to, views, open.logs[0]!);
    return worth.map(({ state, bound, outside }) => ({
      state,
      bound,
      outside: Float64Array.of(outside),
      chances: run.viewsAbove(feed!, viewOf(state), feedOf(state)),
    }));
  }

  /** States below of those in SUMS that have enough; of a quick look, the best of these. */
  private worthLooking(to: number, views: readonly number[], log: number): Plain[] {
    const { inside } = this.scope;
    const found: Plain[] = [];
    let best = -1;
    for (const view of views)
      for (let state = view * FEED_COUNT; state < (view + 1) * FEED_COUNT; state++) {
        if (SUMS[state] === 0) continue;
        const most = inside.at(to, 0, state);
        if (most === -Infinity) continue;
        const outside = log + Math.log(SUMS[state]!);
        const bound = outside + most;
        if (bound < this.logLeast) this.graph.cut = true;
        else if (!(bound <= (found[best]?.bound ?? -Infinity))) {
          best = found.length;
          found.push({ state, bound, outside });
        } else found.push({ state, bound, outside });
      }
    if (!this.narrow || best < 0) return found;
    found.forEach(({ bound }, i) => {
      if (i !== best) this.graph.passedOver.push(bound);
    });
    return [found[best]!];
  }

  /** As viewsBelow, with one context and one case. */
  private plainViews(to: number, { weights, logs }: Opening): number[] {
    let most = 0;
    for (let v = 0; v < VIEW_COUNT; v++) most = Math.max(most, weights[v]!);
    const log = logs[0]! + Math.log(most);
    const views: number[] = [];
    for (let view = 0; view < VIEW_COUNT; view++) {
      const bound = log + this.scope.inside.most(to, 0, view);
      if (bound >= this.logLeast) views.push(view);
      else if (bound > -Infinity) this.graph.cut = true;
    }
    return views;
  }

  /** No explanation with this view below has more. */
  private mostBelow(h: number, j: number, view: number, open: Opening, width: number): number {
    const { below, contextBelow, runs } = this.scope.hubs[h]!;
    const cases = open.logs.length / contextBelow[j]!.length;
    let most = -Infinity;
    open.logs.forEach((log, at) => {
      let weight = 0;
      for (let v = 0; v < width; v++) weight = Math.max(weight, open.weights[at * width + v]!);
      const context = contextBelow[j]![Math.floor(at / cases)]!;
      const inside = this.scope.inside.most(below[j]!, context, view);
      most = Math.max(most, log + Math.log(weight) + inside);
    });
    return most + Math.log(open.logs.length * runs[j]!.most());
  }

  /** `outside` of the state below, along this edge. */
  private outsideBelow(
    h: number,
    j: number,
    { cases: { feeds, width } }: HubState,
    { weights, logs }: Opening,
    chances: Float64Array,
  ): Float64Array {
    const { below, contextBelow, pairBelow } = this.scope.hubs[h]!;
    const outside = new Float64Array(this.scope.hubs[below[j]!]!.outerCount).fill(-Infinity);
    logs.forEach((log, at) => {
      const k = at % feeds.length;
      const context = Math.floor(at / feeds.length);
      const row = (pairBelow[j]![context]! * feeds.length + k) * width;
      let sum = 0;
      for (let v = 0; v < width; v++) sum += weights[at * width + v]! * chances[row + v]!;
      const to = contextBelow[j]![context]!;
      if (sum > 0) outside[to] = logAdd(outside[to]!, log + Math.log(sum));
    });
    return outside;
  }
}

/**
 * Top down, the states of each hub that an explanation of at least exp(logLeast) can have: its most probable way down
 * to the state, times the sum of everything below.
 * @param narrow keep only the best state of each hub: a quick look at what a good explanation has
 */
export function growGraph(
  scope: GraphScope,
  logPrior: number,
  logLeast: number,
  narrow = false,
): Graph {
  const grower = new Grower(scope, logLeast, narrow);
  grower.meet(0, 0, Float64Array.of(logPrior));
  return grower.grow();
}
