/* eslint-disable @typescript-eslint/no-non-null-assertion -- loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { closingChances, contextMap } from '../sweep/contexts.js';
import type { SiteModel } from '../sweep/site.js';
import type { TrunkModel } from '../sweep/trunk-model.js';
import { ComponentPriors } from './component-priors.js';
import { Run } from './run.js';
import { VIEW_COUNT } from './run-effects.js';

/**
 * A point of the site whose state is part of an explanation: an informative node, with its view and feed; a port, with
 * its mode; and above all ports the site itself, with one state.
 */
export interface Hub {
  readonly kind: 'site' | 'port' | 'node';
  /** -1 for the site, and for a port's node. */
  readonly trunk: number;
  readonly node: number;
  /** Confusion flags open here, and those of them that something outside shares. */
  readonly inner: readonly number[];
  readonly outer: readonly number[];
  /** By context over `inner`: that over `outer`, and the logarithm of the prior of the flags that close here. */
  readonly outerOf: Int32Array;
  readonly closing: Float64Array;
  /** The hubs below and the runs to them; the site has its ports without a run between. */
  readonly below: readonly number[];
  readonly runs: readonly Run[];
  /** By hub below: its context over its `outer` for each over `inner`. */
  readonly contextBelow: readonly Int32Array[];
  /** Runs to plain ends of the trunk, and P(view) of all of them together. */
  readonly tails: readonly Run[];
  readonly tailViews: Float64Array;
}

export function isInformative(model: TrunkModel, n: number): boolean {
  const { likelihood, tree, readings } = model;
  const wasRead = (readings?.volts[n] ?? null) !== null;
  return likelihood[n] !== null || wasRead || tree.children[n]!.length > 1;
}

/** Nodes from `n` down to the first that is informative, or to an end of the trunk. */
export function nodesOfRun(model: TrunkModel, n: number): { nodes: number[]; open: boolean } {
  const nodes = [n];
  let last = n;
  while (!isInformative(model, last)) {
    const [next] = model.tree.children[last]!;
    if (next === undefined) return { nodes, open: true };
    nodes.push(next);
    last = next;
  }
  return { nodes, open: false };
}

/** P(view) of several branches together: the union of what is seen in each. */
export function joinViews(branches: readonly Float64Array[]): Float64Array {
  let joined = new Float64Array(VIEW_COUNT);
  joined[0] = 1;
  for (const branch of branches) {
    const next = new Float64Array(VIEW_COUNT);
    for (let a = 0; a < VIEW_COUNT; a++)
      if (joined[a]! > 0)
        for (let b = 0; b < VIEW_COUNT; b++) next[a | b]! += joined[a]! * branch[b]!;
    joined = next;
  }
  return joined;
}

type Place = Pick<Hub, 'kind' | 'trunk' | 'node' | 'inner' | 'outer'>;

/** Spans below a hub, and of each the hub that it leads to; -1 where it leads to a plain end. */
interface Growing {
  readonly hub: Hub & { below: number[]; contextBelow: Int32Array[] };
  readonly next: readonly Place[];
}

function grow(
  site: SiteModel,
  place: Place,
  priorsOf: (trunk: number) => ComponentPriors,
): Growing {
  const { inner, outer } = place;
  const shared = {
    ...place,
    outerOf: contextMap(1, inner, outer),
    closing: closingChances(1, inner, outer, site.flags).map(Math.log),
    below: [],
    contextBelow: [],
  };
  if (place.kind === 'site') {
    const next = site.trunks.map(({ plan }, trunk) => {
      return {
        kind: 'port',
        trunk,
        node: -1,
        inner: plan.portFlags,
        outer: plan.siteFlags,
      } as const;
    });
    return { hub: { ...shared, runs: [], tails: [], tailViews: joinViews([]) }, next };
  }
  const model = site.trunks[place.trunk]!;
  const first = place.kind === 'port' ? model.tree.first : model.tree.children[place.node]!;
  const all = first.map((n) => {
    const { nodes, open } = nodesOfRun(model, n);
    return new Run(nodes, open, priorsOf(place.trunk));
  });
  const runs = all.filter(({ open }) => !open);
  const tails = all.filter(({ open }) => open);
  const next = runs.map(({ nodes }) => {
    const node = nodes.at(-1)!;
    const { nodeFlags, spanFlags } = model.plan;
    const [opened, shared] = [nodeFlags[node]!, spanFlags[node]!];
    return { kind: 'node', trunk: place.trunk, node, inner: opened, outer: shared } as const;
  });
  return {
    hub: { ...shared, runs, tails, tailViews: joinViews(tails.map((t) => t.views())) },
    next,
  };
}

/** All hubs, each after the one above it; the site is the first. */
export function listHubs(site: SiteModel): Hub[] {
  const priors = site.trunks.map((trunk) => new ComponentPriors(trunk));
  const priorsOf = (trunk: number) => priors[trunk]!;
  const flags = [...new Set(site.trunks.flatMap((trunk) => trunk.plan.siteFlags))];
  const inner = flags.sort((a, b) => a - b);
  const grown = [grow(site, { kind: 'site', trunk: -1, node: -1, inner, outer: [] }, priorsOf)];
  for (const { hub, next } of grown)
    for (const place of next) {
      hub.below.push(grown.length);
      hub.contextBelow.push(contextMap(1, hub.inner, place.outer));
      grown.push(grow(site, place, priorsOf));
    }
  return grown.map(({ hub }) => hub);
}
