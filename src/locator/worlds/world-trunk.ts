/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { exp } from '../../elementary/exp.js';
import { ln } from '../../elementary/ln.js';
import { type FunctionSet } from '../../plan/functions.js';
import { planContexts } from '../sweep/contexts.js';
import type { SiteModel } from '../sweep/site.js';
import type { SpanChances } from '../sweep/span-chances.js';
import { EFFECTS, FEED_CLASSES, stateOf, STATES } from './default-system.js';
import { sweepUp, type UpwardSweep } from '../sweep/sweep-trunk.js';
import { trunkLikelihood, type TrunkModel } from '../sweep/trunk-model.js';
import type { StatementsOfOne } from '../sweep/statements.js';
import { type NodeTerms, nodeTerms } from './node-terms.js';
import { feedWithout, type Relevance } from './relevance.js';
import { FEED_AFTER, SHORTABLE, SHORTS_OF } from './span-effects.js';

/** One trunk made ready for weighing worlds. */
export interface WorldTrunk {
  readonly model: TrunkModel;
  /** The upward sweep with nothing but what nobody mentioned: sums out what no world names. */
  readonly silence: UpwardSweep;
  readonly nodes: readonly NodeTerms[];
  /** Functions spoken of at each node or below it; and anywhere on the trunk. */
  readonly saidBelow: Uint8Array;
  readonly said: FunctionSet;
  readonly relevance: Relevance;
  /** By node and group: what `unnamedSpanLog` has worked out. */
  readonly unnamed: (Float64Array | undefined)[];
  /** Written over for each world weighed. */
  readonly work: NodeWork;
}

/** By node. */
interface NodeWork {
  readonly feeds: Uint8Array;
  readonly hides: Uint8Array;
  readonly isSummed: Uint8Array;
  readonly below: Uint8Array;
  readonly shorts: Uint8Array;
}

function nodeWork(count: number): NodeWork {
  const table = () => new Uint8Array(count);
  return { feeds: table(), hides: table(), isSummed: table(), below: table(), shorts: table() };
}

function isSaid(ofOne: StatementsOfOne, said: FunctionSet): boolean {
  return ofOne.items.some(({ func }) => said & (1 << func));
}

/** `said`: by node, the functions that somebody spoke of there. */
export function worldTrunk(
  site: SiteModel,
  model: TrunkModel,
  said: readonly FunctionSet[],
  relevant: Relevance,
): WorldTrunk {
  const { tree, statements, station } = model;
  const silent = statements.map((heard, n) => heard.filter((ofOne) => !isSaid(ofOne, said[n]!)));
  const plan = planContexts(tree, 0, [], site.headEnd.count);
  const likelihood = trunkLikelihood({ ...model, statements: silent, plan }, site.headEnd);
  const saidBelow = Uint8Array.from(said);
  for (let n = tree.count - 1; n >= 0; n--)
    if (tree.parent[n]! >= 0) saidBelow[tree.parent[n]!]! |= saidBelow[n]!;
  return {
    model,
    silence: sweepUp({ ...model, plan, flags: [], statements: silent, likelihood }),
    nodes: statements.map((heard, n) =>
      nodeTerms(
        { said: said[n]!, spoken: heard.filter((v) => isSaid(v, said[n]!)), silent: silent[n]! },
        station[n]!,
        site.headEnd.disables[model.zone[n]!]!,
      ),
    ),
    saidBelow,
    said: said.reduce((all, one) => all | one, 0),
    relevance: relevant,
    unnamed: [],
    work: nodeWork(tree.count),
  };
}

/**
 * log P(nobody spoke of anything from the span into `node` on, and no short that matters is seen there | feed above it).
 * `hidden` are the cores whose short does not matter.
 */
export function logBeyond(
  { silence }: WorldTrunk,
  node: number,
  group: number,
  feed: number,
  hidden: number,
): number {
  const { top, topScale, spans } = silence.tables;
  const { at, contexts } = spans[node]!;
  let sum = 0;
  let logScale = -Infinity;
  for (let view = 0; view <= SHORTABLE; view++) {
    if (view & ~hidden) continue;
    const seen = feedWithout(feed, view);
    const own = topScale[at * FEED_CLASSES + seen * contexts + group]!;
    const mass = top[at * STATES.count + stateOf(view, seen) * contexts + group]!;
    if (own > logScale) {
      sum *= exp(logScale - own);
      logScale = own;
    }
    sum += mass * exp(own - logScale);
  }
  return logScale + ln(sum);
}

/** P(a component of a span is ok, or in a mode that makes no difference | feed above it, shorts that do not matter). */
export function ordinaryChance(
  chances: SpanChances,
  { alike }: Relevance,
  group: number,
  feed: number,
  hidden: number,
): number {
  let sum = chances.ok;
  const at = group * FEED_CLASSES;
  for (let effect = 0; effect < EFFECTS.count; effect++) {
    const isAlike = alike[at + FEED_AFTER[effect * FEED_CLASSES + feed]!] === alike[at + feed];
    if (isAlike && !(SHORTS_OF[effect]! & ~hidden)) sum += chances.effects[effect]!;
  }
  return sum;
}
