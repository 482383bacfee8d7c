/* eslint-disable @typescript-eslint/no-non-null-assertion -- loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ln } from '../../elementary/ln.js';
import { closingChances, contextMap } from '../sweep/contexts.js';
import type { SiteModel } from '../sweep/site.js';
import type { TrunkModel } from '../sweep/trunk-model.js';
import { ComponentPriors } from './component-priors.js';
import type { Moves } from '../readings/label-space.js';
import {
  type LabelPair,
  type LabelTerm,
  labelTerms,
  ONE_PAIR,
  type TermPlan,
} from './label-terms.js';
import { joinViews } from './join-views.js';
import { Run } from './run.js';
import { VIEW_COUNT } from './run-effects.js';

/**
 * A point of the site whose state is part of an explanation: an informative node, with its view and feed; a port, with
 * its mode; and above all ports the site itself, with one state.
 */
export interface InformativeNode {
  readonly kind: 'site' | 'port' | 'node';
  /** -1 for the site, and for a port's node. */
  readonly trunk: number;
  readonly node: number;
  /** Confusion flags open here, and those of them that something outside shares. */
  readonly inner: readonly number[];
  readonly outer: readonly number[];
  /**
   * Without continuity and loop readings one term. With them the informative node's contexts are (term, setting of the flags over
   * `inner`), at term * settings + setting; those over `outer` are (label, setting) in the same way.
   */
  readonly terms: readonly LabelTerm[];
  readonly outerCount: number;
  /** By context: that over `outer`, and the logarithm of the prior of the flags that close here. */
  readonly outerOf: Int32Array;
  readonly closing: Float64Array;
  /** The informative nodes below and the runs to them; the site has its ports without a run between. */
  readonly below: readonly number[];
  readonly runs: readonly Run[];
  /** By informative node below: its context over its `outer` for each over `inner`. */
  readonly contextBelow: readonly Int32Array[];
  /** The same at the top of the run to it; which of the run's pairs of labels; and 1 where it is the first of its top. */
  readonly contextAtTop: readonly Int32Array[];
  readonly pairBelow: readonly Int32Array[];
  readonly isFirst: readonly Uint8Array[];
  /** Runs to plain ends of the trunk, the pair of labels of each by term, and by term P(view) of all of them together. */
  readonly tails: readonly Run[];
  readonly tailPairs: readonly Int32Array[];
  readonly tailViews: readonly Float64Array[];
}

export function isInformative({ likelihood, tree, readings }: TrunkModel, n: number): boolean {
  const wasRead = (readings?.volts[n] ?? null) !== null;
  return likelihood[n] !== null || wasRead || tree.children[n]!.length > 1;
}

/** Nodes from `n` down to the first at which a run ends, or to an end of the trunk. */
export function nodesOfRun(
  model: TrunkModel,
  n: number,
  endsRun: (model: TrunkModel, n: number) => boolean = isInformative,
): { nodes: number[]; open: boolean } {
  const nodes = [n];
  let last = n;
  while (!endsRun(model, last)) {
    const [next] = model.tree.children[last]!;
    if (next === undefined) return { nodes, open: true };
    nodes.push(next);
    last = next;
  }
  return { nodes, open: false };
}

type Place = Pick<InformativeNode, 'kind' | 'trunk' | 'node' | 'inner' | 'outer'>;

/** More products of labels at one informative node than are looked at. */
export class TooManyLabels extends Error {}

const STAY: Moves = {
  from: Uint16Array.of(0),
  to: Uint16Array.of(0),
  weight: Float64Array.of(1),
};
const NEVER: Moves = { from: new Uint16Array(), to: new Uint16Array(), weight: new Float64Array() };

/** How labels join at an informative node and what they count there. */
function termPlan({ labels }: TrunkModel, node: number): TermPlan {
  if (!labels) return { joins: [], keep: STAY, short: STAY };
  if (node >= 0) return labels.nodes[node]!;
  const { joins, weight } = labels.port;
  const from = Uint16Array.from(weight, (_, label) => label);
  return { joins, keep: { from, to: new Uint16Array(weight.length), weight }, short: NEVER };
}

/** Spans below an informative node, and of each the informative node that it leads to. */
interface Growing {
  readonly informative: InformativeNode & {
    below: number[];
    contextBelow: Int32Array[];
    contextAtTop: Int32Array[];
    pairBelow: Int32Array[];
    isFirst: Uint8Array[];
  };
  readonly next: readonly Place[];
  /** By run to an informative node, its pair of labels for each term. */
  readonly pairs: readonly Int32Array[];
}

const ONE_TERM: LabelTerm = { out: 0, label: 0, pairs: [], keep: 1, short: 1 };
const ONE_RUN: readonly LabelTerm[] = [{ ...ONE_TERM, pairs: [0] }];

function termsOf(model: TrunkModel, node: number, all: readonly Run[]): readonly LabelTerm[] {
  if (!model.labels) return all.length === 1 ? ONE_RUN : [{ ...ONE_TERM, pairs: all.map(() => 0) }];
  const terms = labelTerms(
    all.map((run) => run.pairs()),
    termPlan(model, node),
  );
  if (!terms) throw new TooManyLabels();
  return terms;
}

/** Of one context: that it is the only one, that its pair of labels is the first of its top, and log of its prior. */
const ONLY = Int32Array.of(0);
const FIRST = Uint8Array.of(1);
const NO_FLAGS = Float64Array.of(0);

/** What an informative node's contexts are. */
function contextsOf(
  { inner, outer }: Place,
  terms: readonly LabelTerm[],
  labels: number,
  flags: SiteModel['flags'],
) {
  if (inner.length === 0 && terms.length === 1 && labels === 1)
    return { outerCount: 1, outerOf: ONLY, closing: NO_FLAGS };
  const toOuter = contextMap(1, inner, outer);
  const closing = closingChances(1, inner, outer, flags).map(ln);
  const settings = toOuter.length;
  const contexts = { length: terms.length * settings };
  return {
    outerCount: labels << outer.length,
    outerOf: Int32Array.from(
      contexts,
      (_, i) => (terms[Math.floor(i / settings)]!.out << outer.length) + toOuter[i % settings]!,
    ),
    closing: Float64Array.from(contexts, (_, i) => closing[i % settings]!),
  };
}

function growSite(site: SiteModel, place: Place): Growing {
  const next = site.trunks.map(({ plan }, trunk) => {
    const { portFlags: inner, siteFlags: outer } = plan;
    return { kind: 'port', trunk, node: -1, inner, outer } as const;
  });
  const { kind, trunk: none, node, inner: open, outer: shared } = place;
  const { outerCount, outerOf, closing } = contextsOf(place, [ONE_TERM], 1, site.flags);
  return {
    // As grow() has it, and written out too: all are to be of one shape (sweep/trunk-tree.ts).
    informative: {
      kind,
      trunk: none,
      node,
      inner: open,
      outer: shared,
      terms: [ONE_TERM],
      outerCount,
      outerOf,
      closing,
      below: [],
      contextBelow: [],
      contextAtTop: [],
      pairBelow: [],
      isFirst: [],
      runs: [],
      tails: [],
      tailPairs: [],
      tailViews: [joinViews([])],
    },
    next,
    pairs: next.map(() => Int32Array.of(0)),
  };
}

const NONE_BELOW: readonly Run[] = [];

function placeBelow({ plan }: TrunkModel, trunk: number, node: number): Place {
  const [inner, outer] = [plan.nodeFlags[node]!, plan.spanFlags[node]!];
  return { kind: 'node', trunk, node, inner, outer };
}

function grow(
  site: SiteModel,
  place: Place,
  priorsOf: (trunk: number) => ComponentPriors,
): Growing {
  const { kind, trunk, node, inner, outer } = place;
  const model = site.trunks[trunk]!;
  const first = kind === 'port' ? model.tree.first : model.tree.children[node]!;
  const all = first.map((n) => {
    const { nodes, open } = nodesOfRun(model, n);
    return new Run(nodes, open, priorsOf(trunk));
  });
  const terms = termsOf(model, node, all);
  const pairsOf = (run: Run) => Int32Array.from(terms, ({ pairs }) => pairs[all.indexOf(run)]!);
  const runs = all.filter(({ open }) => !open);
  const tails = runs.length < all.length ? all.filter(({ open }) => open) : NONE_BELOW;
  const tailPairs = tails.map(pairsOf);
  const labels = kind === 'port' ? 1 : (model.labels?.spans[node]!.labels ?? 1);
  const { outerCount, outerOf, closing } = contextsOf(place, terms, labels, site.flags);
  return {
    informative: {
      kind,
      trunk,
      node,
      inner,
      outer,
      terms,
      outerCount,
      outerOf,
      closing,
      below: [],
      contextBelow: [],
      contextAtTop: [],
      pairBelow: [],
      isFirst: [],
      runs,
      tails,
      tailPairs,
      tailViews: terms.map((_, t) =>
        joinViews(tails.map((tail, k) => viewsOfPair(tail, tailPairs[k]![t]!))),
      ),
    },
    next: runs.map(({ nodes }) => placeBelow(model, trunk, nodes.at(-1)!)),
    pairs: runs.map((run) => (model.labels ? pairsOf(run) : ONLY)),
  };
}

function viewsOfPair(tail: Run, pair: number): Float64Array {
  return tail.views().subarray(pair * VIEW_COUNT, (pair + 1) * VIEW_COUNT);
}

/** Lets an informative node know the contexts of one more informative node below it. */
function connect({ informative, pairs }: Growing, j: number, { outer }: Place): void {
  if (informative.outerOf === ONLY && !informative.runs[j]?.labelled()) {
    // Nearly always: one context, which these arrays are enough for.
    informative.pairBelow.push(ONLY);
    informative.contextBelow.push(ONLY);
    informative.contextAtTop.push(ONLY);
    informative.isFirst.push(FIRST);
    return;
  }
  const toOuter = contextMap(1, informative.inner, outer);
  const list: readonly LabelPair[] = informative.runs[j]?.pairs() ?? ONE_PAIR;
  const pairOf = Int32Array.from(
    informative.outerOf,
    (_, i) => pairs[j]![Math.floor(i / toOuter.length)]!,
  );
  const context = (label: number, i: number) =>
    (label << outer.length) + toOuter[i % toOuter.length]!;
  const firsts = new Map<number, number>();
  list.forEach(({ above }, p) => {
    if (!firsts.has(above)) firsts.set(above, p);
  });
  informative.pairBelow.push(pairOf);
  informative.contextBelow.push(pairOf.map((pair, i) => context(list[pair]!.below, i)));
  informative.contextAtTop.push(pairOf.map((pair, i) => context(list[pair]!.above, i)));
  informative.isFirst.push(
    Uint8Array.from(pairOf, (pair) => (firsts.get(list[pair]!.above) === pair ? 1 : 0)),
  );
}

/**
 * All informative nodes, each after the one above it; the site is the first.
 * @throws TooManyLabels
 */
export function listInformativeNodes(site: SiteModel): InformativeNode[] {
  const priors = site.trunks.map((trunk) => new ComponentPriors(trunk));
  const priorsOf = (trunk: number) => priors[trunk]!;
  const flags = [...new Set(site.trunks.flatMap((trunk) => trunk.plan.siteFlags))];
  const inner = flags.sort((a, b) => a - b);
  const grown = [growSite(site, { kind: 'site', trunk: -1, node: -1, inner, outer: [] })];
  for (const growing of grown)
    growing.next.forEach((place, j) => {
      growing.informative.below.push(grown.length);
      connect(growing, j, place);
      grown.push(grow(site, place, priorsOf));
    });
  return grown.map(({ informative }) => informative);
}
