/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { SiteModel } from '../sweep/site.js';
import { logAdd } from '../sweep/log-add.js';
import type { Hub } from './hubs.js';
import type { Inside } from './inside.js';
import { casesOf, type Cases, CLASS_OF_FEED } from './local-cases.js';
import { logSum } from './log-sum.js';
import { FEED_COUNT, VIEW_COUNT } from './run-effects.js';

/** A state of the hub below that can go with a state of the hub above. */
export interface Edge {
  /** Its position among the states of the hub below. */
  readonly to: number;
  /** P(the run between them), at case * width + view at the top of the run. */
  readonly chances: Float64Array;
  /** Of a hub with one hub below: with `local` of the hub above, logarithms by its inner context. */
  readonly through: Float64Array | null;
}

export interface HubState {
  readonly state: number;
  readonly cases: Cases;
  /** By context over `outer`: log of the most that everything above gives to this state, other branches summed out. */
  readonly outside: Float64Array;
  /** By hub below. */
  readonly edges: Edge[][];
}

/** States that are worth looking at, by hub, for one head-end group. */
export interface Graph {
  readonly group: number;
  readonly states: HubState[][];
  /** Whether anything that is possible was left out. */
  cut: boolean;
}

export interface GraphScope {
  readonly site: SiteModel;
  readonly hubs: readonly Hub[];
  readonly inside: Inside;
}

/** What everything but one run makes of its view, at context * cases + case: weights * exp(logs). */
interface Opening {
  readonly weights: Float64Array;
  readonly logs: Float64Array;
}

function opening(scope: GraphScope, h: number, j: number, from: HubState): Opening {
  const { outerOf, closing, below, contextBelow } = scope.hubs[h]!;
  const { feeds, width, local } = from.cases;
  const weights = local.slice();
  const logs = new Float64Array(outerOf.length * feeds.length);
  for (let context = 0; context < outerOf.length; context++)
    feeds.forEach((feed, k) => {
      const at = context * feeds.length + k;
      logs[at] = from.outside[outerOf[context]!]! + closing[context]! + from.cases.log;
      const own = weights.subarray(at * width, (at + 1) * width);
      for (let other = 0; other < below.length; other++) {
        if (other === j) continue;
        const of = contextBelow[other]![context]!;
        const { views, log } = scope.inside.above(h, other, of, CLASS_OF_FEED[feed]!);
        logs[at] += log;
        own.set(unite(own, views));
      }
    });
  return { weights, logs };
}

/** Weights by the view of some spans, from those by the view of these and one more, whose views are given. */
export function unite(weights: Float64Array, views: Float64Array): Float64Array {
  return weights.map((_, a) => {
    let sum = 0;
    for (let b = 0; b < views.length; b++) sum += views[b]! * weights[a | b]!;
    return sum;
  });
}

/** A state below that an edge may lead to. */
interface Candidate {
  readonly state: number;
  readonly chances: Float64Array;
  readonly outside: Float64Array;
  /** No explanation with this edge has more. */
  readonly bound: number;
}

function mostProbable(found: readonly Candidate[]): Candidate[] {
  const [first, ...others] = found;
  if (!first) return [];
  return [others.reduce((most, one) => (one.bound > most.bound ? one : most), first)];
}

class Grower {
  private readonly positions: Map<number, number>[];
  readonly graph: Graph;
  constructor(
    private readonly scope: GraphScope,
    private readonly logLeast: number,
    private readonly narrow: boolean,
  ) {
    this.graph = { group: scope.inside.group, states: scope.hubs.map(() => []), cut: false };
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
    const open = opening(this.scope, h, j, from);
    const isPlain = open.logs.length === 1 && from.cases.width > 1;
    const found = isPlain
      ? this.plainCandidates(h, j, from, open)
      : this.candidates(h, j, from, open);
    const kept = this.narrow ? mostProbable(found) : found;
    const below = this.scope.hubs[h]!.below;
    return kept.map(({ state, chances, outside }) => ({
      to: this.meet(below[j]!, state, outside),
      chances,
      through: below.length === 1 ? through(from.cases, chances, open.logs.length) : null,
    }));
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
    const { feeds, width } = from.cases;
    const { kind, runs } = this.scope.hubs[h]!;
    const all = new Map<number, Float64Array>();
    if (kind === 'site') for (const port of [0, 1]) all.set(port, Float64Array.of(1));
    else
      for (const view of this.viewsBelow(h, j, open, width))
        feeds.forEach((feed, k) => {
          const arrivals = runs[j]!.arrivals(feed, view);
          arrivals.feeds.forEach((below, f) => {
            const state = view * FEED_COUNT + below;
            const chances = all.get(state) ?? new Float64Array(feeds.length * width);
            all.set(state, chances);
            for (let v = 0; v < width; v++)
              chances[k * width + v]! += arrivals.chances[f * VIEW_COUNT + v]!;
          });
        });
    return [...all].flatMap(([state, chances]) => {
      const outside = this.outsideBelow(h, j, from, open, chances);
      const bound = this.boundOf(h, j, state, outside);
      this.graph.cut ||= bound < this.logLeast && bound > -Infinity;
      if (bound < this.logLeast || bound === -Infinity) return [];
      return { state, chances, outside, bound };
    });
  }

  /** The same where there is one context and one case: nearly always, and most states below have too little. */
  private plainCandidates(h: number, j: number, from: HubState, open: Opening): Candidate[] {
    const { below, runs } = this.scope.hubs[h]!;
    const { weights } = open;
    const log = open.logs[0]!;
    const found: Candidate[] = [];
    for (const view of this.viewsBelow(h, j, open, VIEW_COUNT)) {
      const { feeds, chances } = runs[j]!.arrivals(from.cases.feeds[0]!, view);
      for (let f = 0; f < feeds.length; f++) {
        let sum = 0;
        for (let v = 0; v < VIEW_COUNT; v++) sum += weights[v]! * chances[f * VIEW_COUNT + v]!;
        if (sum === 0) continue;
        const state = view * FEED_COUNT + feeds[f]!;
        const inside = this.scope.inside.at(below[j]!, 0, state);
        if (inside === -Infinity) continue;
        const outside = log + Math.log(sum);
        if (outside + inside < this.logLeast) this.graph.cut = true;
        else
          found.push({
            state,
            chances: chances.slice(f * VIEW_COUNT, (f + 1) * VIEW_COUNT),
            outside: Float64Array.of(outside),
            bound: outside + inside,
          });
      }
    }
    return found;
  }

  /** No explanation with this view below has more. */
  private mostBelow(h: number, j: number, view: number, open: Opening, width: number): number {
    const { below, contextBelow } = this.scope.hubs[h]!;
    const cases = open.logs.length / contextBelow[j]!.length;
    let most = -Infinity;
    open.logs.forEach((log, at) => {
      let weight = 0;
      for (let v = 0; v < width; v++) weight = Math.max(weight, open.weights[at * width + v]!);
      const context = contextBelow[j]![Math.floor(at / cases)]!;
      const inside = this.scope.inside.most(below[j]!, context, view);
      most = Math.max(most, log + Math.log(weight) + inside);
    });
    return most + Math.log(open.logs.length);
  }

  /** `outside` of the state below, along this edge. */
  private outsideBelow(
    h: number,
    j: number,
    { cases: { feeds, width } }: HubState,
    { weights, logs }: Opening,
    chances: Float64Array,
  ): Float64Array {
    const { below, contextBelow } = this.scope.hubs[h]!;
    const { outer } = this.scope.hubs[below[j]!]!;
    const outside = new Float64Array(1 << outer.length).fill(-Infinity);
    logs.forEach((log, at) => {
      const k = at % feeds.length;
      let sum = 0;
      for (let v = 0; v < width; v++) sum += weights[at * width + v]! * chances[k * width + v]!;
      const to = contextBelow[j]![Math.floor(at / feeds.length)]!;
      if (sum > 0) outside[to] = logAdd(outside[to]!, log + Math.log(sum));
    });
    return outside;
  }
}

function through({ local, log, feeds }: Cases, chances: Float64Array, cells: number): Float64Array {
  return Float64Array.from({ length: cells / feeds.length }, (_, context) => {
    let sum = 0;
    for (let i = 0; i < chances.length; i++)
      sum += local[context * chances.length + i]! * chances[i]!;
    return Math.log(sum) + log;
  });
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
