/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ALL_CORES, SUPPLY } from '../../plan/cores.js';
import { DEAD_FEED } from '../sweep/feed-classes.js';
import { isQuietAt } from '../sweep/quiet-site.js';
import type { SiteModel } from '../sweep/site.js';
import type { System } from '../sweep/system.js';
import type { InformativeNode } from './informative-nodes.js';
import { NOTHING_SEEN } from './join-views.js';
import { FEED_COUNT, VIEW_COUNT, WEAK_FEED } from './run-effects.js';

/**
 * What an informative node in one state says of the spans below it. Its *cases* are summed out: at a port each set of shorts that may
 * be seen there, which decides what is fed; a node has one case.
 */
export interface Cases {
  /** The feed that goes into the spans below, by case. */
  readonly feeds: readonly number[];
  /** Views counted at the spans below: VIEW_COUNT; at the site 1, for no view passes there. */
  readonly width: number;
  /**
   * P(everything known here, and the informative node's own state | view of the spans below, all together), at
   * (context * cases + case) * width + view. Contexts are those over the informative node's `inner` flags.
   */
  readonly local: Float64Array;
  /**
   * By context, what `local` must be multiplied by besides, as logarithms: P(volts read here | feed), the scale of what was
   * told here, at a port what loop readings have as a factor whatever the faults. They would leave the range of doubles.
   */
  readonly logs: Float64Array;
}

/** log of `local`, with everything known. */
export function localLogs({ local, logs }: Cases): Float64Array {
  const cells = local.length / logs.length;
  return local.map((chance, i) => Math.log(chance) + logs[Math.floor(i / cells)]!);
}

/** States of informative nodes as numbers: of a node its view * FEED_COUNT + feed; of a port 0 for ok, 1 for no output. */
export const viewOf = (state: number) => Math.floor(state / FEED_COUNT);
export const feedOf = (state: number) => state % FEED_COUNT;

const CLASSES = new WeakMap<System, Uint8Array>();

/** The class of each feed in the sweeps, for which everything below and all evidence is equally likely. */
export function classOfFeed(system: System): Uint8Array {
  const known =
    CLASSES.get(system) ??
    Uint8Array.from({ length: FEED_COUNT }, (_, feed) =>
      system.feedClasses.of(feed & ALL_CORES, (feed & WEAK_FEED) !== 0),
    );
  CLASSES.set(system, known);
  return known;
}

/** What of an informative node is asked for. */
export interface CasesWanted {
  /** That the runs to plain ends come as spans below like the others, and are not summed out with the informative node. */
  readonly withoutTails?: boolean;
  /** Only that in which all is well that was complained of there. */
  readonly onlyQuiet?: boolean;
}

/** The cases of an informative node in a state, for one head-end group. */
export function casesOf(
  site: SiteModel,
  informative: InformativeNode,
  group: number,
  state: number,
  { withoutTails = false, onlyQuiet = false }: CasesWanted = {},
): Cases {
  const tails = withoutTails ? informative.terms.map(() => NOTHING_SEEN) : informative.tailViews;
  if (informative.kind === 'site') {
    const contexts = informative.outerOf.length;
    const local = new Float64Array(contexts).fill(1);
    return { feeds: [0], width: 1, local, logs: new Float64Array(contexts) };
  }
  return informative.kind === 'port'
    ? portCases(site, informative, group, state, tails)
    : nodeCases({ site, informative, group, feed: feedOf(state), onlyQuiet }, viewOf(state), tails);
}

function portCases(
  site: SiteModel,
  informative: InformativeNode,
  group: number,
  state: number,
  tails: readonly Float64Array[],
): Cases {
  const { portOk, portNoOutput, readings } = site.trunks[informative.trunk]!;
  const chance = state === 0 ? portOk : portNoOutput;
  const isFed = state === 0 && !site.headEnd.isPowerless[group];
  const { allCores } = site.system.plan;
  const output = isFed ? allCores : allCores & ~SUPPLY;
  const feeds = Array.from({ length: VIEW_COUNT }, (_, seen) => output & ~seen);
  const local = new Float64Array(informative.outerOf.length * VIEW_COUNT * VIEW_COUNT);
  for (let context = 0; context < informative.outerOf.length; context++)
    for (let view = 0; view < VIEW_COUNT; view++)
      for (let tail = 0; tail < VIEW_COUNT; tail++) {
        const seen = view | tail;
        const t = context >> informative.inner.length;
        local[(context * VIEW_COUNT + seen) * VIEW_COUNT + view]! +=
          chance * informative.terms[t]!.keep * tails[t]![tail]!;
      }
  const logs = new Float64Array(informative.outerOf.length).fill(readings?.logFlat ?? 0);
  return { feeds, width: VIEW_COUNT, local, logs };
}

/** An informative node with a feed, for one head-end group. */
export interface FedNode {
  readonly site: SiteModel;
  readonly informative: InformativeNode;
  readonly group: number;
  readonly feed: number;
  readonly onlyQuiet: boolean;
}

function nodeCases(fed: FedNode, view: number, tails: readonly Float64Array[]): Cases {
  const { site, informative, feed } = fed;
  const local = new Float64Array(informative.outerOf.length * VIEW_COUNT);
  for (let context = 0; context < informative.outerOf.length; context++) {
    const t = context >> informative.inner.length;
    const { keep, short } = informative.terms[t]!;
    const setting = context & ((1 << informative.inner.length) - 1);
    const { sound, shorted } = stationChance(fed, setting);
    for (let tail = 0; tail < VIEW_COUNT; tail++) {
      const chance = tails[t]![tail]!;
      if (chance === 0) continue;
      for (let below = 0; below < VIEW_COUNT; below++) {
        const seen = below | tail;
        const at = context * VIEW_COUNT + below;
        if (seen === view) local[at]! += chance * sound * keep;
        if ((seen | SUPPLY) === view) local[at]! += chance * shorted * short;
      }
    }
  }
  const volts = site.trunks[informative.trunk]!.readings?.volts[informative.node] ?? null;
  const read = volts ? volts[classOfFeed(site.system)[feed]!]! : 0;
  const logs = toldLogs(fed).map((told) => told + read);
  return { feeds: [feed], width: VIEW_COUNT, local, logs };
}

/** By inner context, the scale of what was told here: NodeLikelihood.logs. */
function toldLogs({ site, informative, group, feed }: FedNode): Float64Array {
  const told = new Float64Array(informative.outerOf.length);
  const scale = site.trunks[informative.trunk]!.likelihood[informative.node]?.logs;
  if (!scale) return told;
  const contexts = scale.length / site.system.feedClasses.count;
  const of = classOfFeed(site.system)[feed]!;
  const settings = (1 << informative.inner.length) - 1;
  return told.map((_, context) => {
    const own = (context & settings) * site.headEnd.count + group;
    return scale[of * contexts + own]!;
  });
}

/** P(what is known here, the class of the station's mode | feed), by class; at a junction box the first alone. */
export function stationMasses(
  { site, informative, group, feed, onlyQuiet }: FedNode,
  setting: number,
): { classes: Float64Array; shorted: number } {
  const { trunk, node } = informative;
  const model = site.trunks[trunk]!;
  const station = model.station[node];
  if (!station) return { classes: Float64Array.of(1), shorted: 0 };
  const likelihood = model.likelihood[node]?.table;
  const { count: feeds } = site.system.feedClasses;
  const from = (setting * site.headEnd.count + group) * site.system.stationClasses.count * feeds;
  const of = classOfFeed(site.system)[feed]!;
  const told = (k: number) => {
    if (onlyQuiet && !isQuietAt(site, informative, group, of, k)) return 0;
    return likelihood ? likelihood[from + k * feeds + of]! : 1;
  };
  return {
    classes: station.classes.map((chance, k) => chance * told(k)),
    shorted: of === DEAD_FEED ? station.short * told(0) : 0,
  };
}

/** P(what is known here, and that the station does not short the supply, or does | feed). */
function stationChance(fed: FedNode, setting: number): { sound: number; shorted: number } {
  const { classes, shorted } = stationMasses(fed, setting);
  return { sound: classes.reduce((sum, chance) => sum + chance, 0), shorted };
}
