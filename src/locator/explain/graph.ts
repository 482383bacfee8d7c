/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: in range by construction; a fallback would hide what is wrong */
import { ln } from '../../elementary/ln.js';
import { logAdd } from '../numbers/log-add.js';
import { ArrivalTables } from './arrival-tables.js';
import type { Candidate, Edge, Graph, NodeState } from './node-state.js';
import type { InformativeNode } from './informative-nodes.js';
import type { Inside } from './inside.js';
import { casesOf, type LabelledSite } from './local-cases.js';
import { logSumExp } from '../numbers/log-sum-exp.js';
import { type Opening, Openings, through } from './opening.js';
import type { Run } from './run.js';
import { FEED_COUNT, VIEW_COUNT } from './run-effects.js';
import type { LabelledRun } from './labelled-run.js';
import { reach } from './reach.js';
import type { WorkLeft } from './work.js';
import { copyOf, ReusedTable } from '../numbers/zero-table.js';

export interface GraphScope {
  readonly site: LabelledSite;
  readonly informativeNodes: readonly InformativeNode[];
  readonly inside: Inside;
  readonly work: WorkLeft;
}

const STATES_OF_NODE = VIEW_COUNT * FEED_COUNT;

/** A state below with so much less (as a logarithm) than all together is hardly the likeliest one. */
const LIKELY = 6;

/** `outside` of a state, of which most are not kept; and what each context has with what is below. */
const OUTSIDE = new ReusedTable();
const LOGS = new ReusedTable();

class Grower {
  /** By informative node and state, the state's position among those met; -1 where it was not. */
  private readonly positions: Int16Array;
  private readonly arrivals: ArrivalTables;
  readonly graph: Graph;
  constructor(
    private readonly scope: GraphScope,
    private logLeast: number,
  ) {
    this.graph = {
      group: scope.inside.group,
      states: scope.informativeNodes.map(() => []),
      cut: false,
    };
    this.arrivals = new ArrivalTables(scope.informativeNodes, scope.inside, scope.work);
    this.positions = new Int16Array(scope.informativeNodes.length * STATES_OF_NODE).fill(-1);
  }

  /** The position of a state of an informative node, which is made if it is new. */
  meet(h: number, state: number, outside: Float64Array): number {
    const states = this.graph.states[h]!;
    const at = h * STATES_OF_NODE + state;
    const known = this.positions[at]!;
    if (known >= 0) {
      const most = states[known]!.outside;
      outside.forEach((log, context) => (most[context] = Math.max(most[context]!, log)));
      return known;
    }
    const { site, informativeNodes, inside, work } = this.scope;
    const cases = casesOf(site, informativeNodes[h]!, inside.group, state);
    work.spend(cases.local.length * VIEW_COUNT);
    this.positions[at] = states.length;
    return states.push({ state, cases, outside, edges: [] }) - 1;
  }

  grow(): Graph {
    return this.growBy((h, j, from, open) => this.edges(h, j, from, open));
  }

  /** Of each state met, only the likeliest below. */
  growOnlyLikeliest(): Graph {
    return this.growBy((h, j, from, open) => this.onlyEdge(h, j, from, open));
  }

  private growBy(edges: (h: number, j: number, from: NodeState, open: Opening) => Edge[]): Graph {
    this.scope.informativeNodes.forEach((informative, h) => {
      const openings = new Openings(informative, h, this.scope.inside);
      for (const from of this.graph.states[h]!)
        informative.below.forEach((_, j) =>
          from.edges.push(edges(h, j, from, openings.of(j, from))),
        );
    });
    return this.graph;
  }

  private onlyEdge(h: number, j: number, from: NodeState, open: Opening): Edge[] {
    // All together cannot have more than this; what has much less is looked at only if there is nothing else.
    const most = this.boundAbove(h, from);
    const steps =
      this.scope.informativeNodes[h]!.kind === 'site' ? [Infinity] : [LIKELY, 5 * LIKELY, Infinity];
    for (const less of steps) {
      this.logLeast = less === Infinity ? -Infinity : most - less;
      const found = this.candidates(h, j, from, open);
      const bounds = found.map(({ state, outside }) => this.boundOf(h, j, state, outside));
      const best = found[bounds.indexOf(Math.max(...bounds))];
      if (best) return [this.edgeTo(h, j, from, best)];
    }
    return [];
  }

  private boundAbove(h: number, { state, outside }: NodeState): number {
    if (this.scope.informativeNodes[h]!.kind === 'site') return 0;
    return logSumExp(outside.map((log, context) => log + this.scope.inside.at(h, context, state)));
  }

  private edgeTo(h: number, j: number, from: NodeState, candidate: Candidate): Edge {
    const { below, pairBelow } = this.scope.informativeNodes[h]!;
    const { state, chances, outside } = candidate;
    return {
      to: this.meet(below[j]!, state, outside),
      chances,
      through: below.length === 1 ? through(from.cases, chances, pairBelow[0]!) : null,
    };
  }

  private edges(h: number, j: number, from: NodeState, open: Opening): Edge[] {
    this.scope.work.spend(open.weights.length * VIEW_COUNT);
    return this.candidates(h, j, from, open).map((found) => this.edgeTo(h, j, from, found));
  }

  /** Views below that some explanation of enough has. */
  private viewsBelow(h: number, j: number, open: Opening, mostOfRun: number): number[] {
    const most = Float64Array.from({ length: VIEW_COUNT }, (_, view) =>
      this.mostBelow(h, j, view, open, mostOfRun),
    );
    const views = [...most.keys()].filter((view) => most[view]! > -Infinity);
    const kept = views.filter((view) => most[view]! >= this.logLeast);
    this.graph.cut ||= kept.length < views.length;
    return kept;
  }

  private boundOf(h: number, j: number, state: number, outside: Float64Array): number {
    const to = this.scope.informativeNodes[h]!.below[j]!;
    const count = this.scope.informativeNodes[to]!.outerCount;
    const logs = LOGS.of(count);
    for (let context = 0; context < count; context++)
      logs[context] = outside[context]! + this.scope.inside.at(to, context, state);
    return logSumExp(logs, count);
  }

  /** States below that have enough, and P(run) as Edge.chances. */
  private candidates(h: number, j: number, from: NodeState, open: Opening): Candidate[] {
    const run = this.scope.informativeNodes[h]!.runs[j];
    const labelled = run?.labelled();
    const found: Candidate[] = [];
    if (!run)
      for (const port of [0, 1]) this.consider(h, j, from, open, port, Float64Array.of(1), found);
    else if (labelled) this.considerArrivals(h, j, from, open, labelled, found);
    else
      for (const state of this.likelyStates(h, j, run, from, open)) {
        const chances = run.chancesTo(state, from.cases.feeds, this.scope.work);
        this.consider(h, j, from, open, state, chances, found);
      }
    return found;
  }

  /** On a trunk with labels. */
  private considerArrivals(
    h: number,
    j: number,
    from: NodeState,
    open: Opening,
    run: LabelledRun,
    found: Candidate[],
  ): void {
    const views = this.viewsBelow(h, j, open, run.most);
    for (const [state, chances] of this.arrivals.of(h, j, from.cases, open, run, views))
      if (!this.consider(h, j, from, open, state, chances, found)) this.arrivals.giveBack(chances);
  }

  /** Adds a state below to `found` if it has enough; answers whether. */
  private consider(
    h: number,
    j: number,
    from: NodeState,
    open: Opening,
    state: number,
    chances: Float64Array,
    found: Candidate[],
  ): boolean {
    this.scope.work.spend(open.active.length * VIEW_COUNT);
    const { outerCount } = this.scope.informativeNodes[this.scope.informativeNodes[h]!.below[j]!]!;
    const outside = OUTSIDE.of(outerCount).fill(-Infinity, 0, outerCount);
    this.addOutside(h, j, from, open, chances, outside);
    const bound = this.boundOf(h, j, state, outside);
    if (bound >= this.logLeast && bound > -Infinity) {
      found.push({ state, chances, outside: copyOf(outside, outerCount) });
      return true;
    }
    this.graph.cut ||= bound > -Infinity;
    return false;
  }

  /** On a trunk without labels. */
  private likelyStates(h: number, j: number, run: Run, from: NodeState, open: Opening): number[] {
    const { below, contextBelow } = this.scope.informativeNodes[h]!;
    const { feeds, width } = from.cases;
    const { logs, weights } = open;
    const states: number[] = [];
    // What several contexts and cases have together is at most so many times the most that one has.
    const logLeast = this.logLeast - ln(logs.length);
    for (const at of open.active) {
      const top = { feed: feeds[at % feeds.length]!, weights, at: at * width, log: logs[at]! };
      const context = contextBelow[j]![Math.floor(at / feeds.length)]!;
      this.scope.work.spend(STATES_OF_NODE);
      if (reach(run.bounds(), top, this.scope.inside, below[j]!, context, logLeast, states))
        this.graph.cut = true;
    }
    return states;
  }

  /** No explanation with this view below has more. */
  private mostBelow(h: number, j: number, view: number, open: Opening, mostOfRun: number): number {
    const { below, contextBelow } = this.scope.informativeNodes[h]!;
    const cases = open.logs.length / contextBelow[j]!.length;
    const width = open.weights.length / open.logs.length;
    let most = -Infinity;
    open.logs.forEach((log, at) => {
      let weight = 0;
      for (let v = 0; v < width; v++) weight = Math.max(weight, open.weights[at * width + v]!);
      const context = contextBelow[j]![Math.floor(at / cases)]!;
      const inside = this.scope.inside.most(below[j]!, context, view);
      most = Math.max(most, log + ln(weight) + inside);
    });
    return most + ln(open.logs.length * mostOfRun);
  }

  /** Adds to `outside` of the state below what comes along this edge. */
  private addOutside(
    h: number,
    j: number,
    { cases: { feeds, width } }: NodeState,
    { weights, logs, active }: Opening,
    chances: Float64Array,
    outside: Float64Array,
  ): void {
    const { contextBelow, pairBelow } = this.scope.informativeNodes[h]!;
    for (let i = 0; i < active.length; i++) {
      const at = active[i]!;
      const context = Math.floor(at / feeds.length);
      const row = (pairBelow[j]![context]! * feeds.length + (at % feeds.length)) * width;
      let sum = 0;
      for (let v = 0; v < width; v++) sum += weights[at * width + v]! * chances[row + v]!;
      const to = contextBelow[j]![context]!;
      if (sum > 0) outside[to] = logAdd(outside[to]!, logs[at]! + ln(sum));
    }
  }
}

/**
 * Top down, the states of each informative node that an explanation of at least exp(logLeast) can have: its likeliest way down
 * to the state, times the sum of everything below.
 */
export function growGraph(scope: GraphScope, logPrior: number, logLeast: number): Graph {
  const grower = new Grower(scope, logLeast);
  grower.meet(0, 0, Float64Array.of(logPrior));
  return grower.grow();
}

/** The same with one state of each informative node: of each, given the one above, that with which most of the evidence goes. */
export function growOnlyLikeliest(scope: GraphScope, logPrior: number): Graph {
  const grower = new Grower(scope, -Infinity);
  grower.meet(0, 0, Float64Array.of(logPrior));
  return grower.growOnlyLikeliest();
}
