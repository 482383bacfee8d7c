/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ln } from '../../elementary/ln.js';
import { ALL_CORES, SUPPLY } from '../../plan/cores.js';
import { DEAD_FEED } from '../sweep/feed-classes.js';
import { isQuietAt } from '../sweep/quiet-site.js';
import type { SiteModel } from '../sweep/site.js';
import type { System } from '../sweep/system.js';
import type { CutLabels } from './cut-labels.js';
import type { InformativeNode } from './informative-nodes.js';
import { NOTHING_SEEN } from './join-views.js';
import { FEED_COUNT, VIEW_COUNT, WEAK_FEED } from './run-effects.js';
import { zeroTable } from '../numbers/zero-table.js';

/** A site with the labels of the trunks that were disconnected while something was told. */
export interface LabelledSite extends SiteModel {
  /** By trunk; null where it was whole all the time. */
  readonly cuts: readonly (CutLabels | null)[];
}

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
  return local.map((chance, i) => ln(chance) + logs[Math.floor(i / cells)]!);
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
  site: LabelledSite,
  informative: InformativeNode,
  group: number,
  state: number,
  { withoutTails = false, onlyQuiet = false }: CasesWanted = {},
): Cases {
  const tails = withoutTails ? informative.terms.map(() => NOTHING_SEEN) : informative.tailViews;
  if (informative.kind === 'site') {
    const contexts = informative.outerOf.length;
    const local = zeroTable(contexts).fill(1);
    return { feeds: [0], width: 1, local, logs: zeroTable(contexts) };
  }
  return informative.kind === 'port'
    ? portCases(site, informative, group, state, tails)
    : nodeCases(
        { site, informative, group, feed: feedOf(state), view: viewOf(state), onlyQuiet },
        tails,
      );
}

function portCases(
  site: LabelledSite,
  informative: InformativeNode,
  group: number,
  state: number,
  tails: readonly Float64Array[],
): Cases {
  const { portOk, portNoOutput, readings } = site.trunks[informative.trunk]!;
  const chance = state === 0 ? portOk : portNoOutput;
  const cuts = site.cuts[informative.trunk];
  const isFed = state === 0 && !site.headEnd.isPowerless[group];
  const { allCores } = site.system.plan;
  const output = isFed ? allCores : allCores & ~SUPPLY;
  const feeds = Array.from({ length: VIEW_COUNT }, (_, seen) => output & ~seen);
  const local = zeroTable(informative.outerOf.length * VIEW_COUNT * VIEW_COUNT);
  for (let context = 0; context < informative.outerOf.length; context++)
    for (let view = 0; view < VIEW_COUNT; view++)
      for (let tail = 0; tail < VIEW_COUNT; tail++) {
        const seen = view | tail;
        const t = context >> informative.inner.length;
        const { keep, label } = informative.terms[t]!;
        if (cuts && !cuts.startsWith(label, isFed)) continue;
        local[(context * VIEW_COUNT + seen) * VIEW_COUNT + view]! +=
          chance * keep * tails[t]![tail]!;
      }
  const logs = zeroTable(informative.outerOf.length).fill(readings?.logFlat ?? 0);
  return { feeds, width: VIEW_COUNT, local, logs };
}

/** An informative node in a state, for one head-end group. */
export interface FedNode {
  readonly site: LabelledSite;
  readonly informative: InformativeNode;
  readonly group: number;
  readonly feed: number;
  readonly view: number;
  readonly onlyQuiet: boolean;
}

function nodeCases(fed: FedNode, tails: readonly Float64Array[]): Cases {
  const { site, informative, feed, view } = fed;
  const local = zeroTable(informative.outerOf.length * VIEW_COUNT);
  for (let context = 0; context < informative.outerOf.length; context++) {
    const t = context >> informative.inner.length;
    const { keep, short } = informative.terms[t]!;
    addStation(fed, context, STATION);
    const [sound = 0, shorted = 0] = STATION;
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
  const logs = toldLogs(fed);
  for (let context = 0; context < logs.length; context++) logs[context]! += read;
  return { feeds: [feed], width: VIEW_COUNT, local, logs };
}

/** The feed of the sweeps at a node in an inner context; -1 where the context's label does not go with the node's state. */
function feedNumber({ site, informative, feed, view }: FedNode, context: number): number {
  const of = classOfFeed(site.system)[feed]!;
  const cuts = site.cuts[informative.trunk];
  const { out } = informative.terms[context >> informative.inner.length]!;
  return cuts ? cuts.feedOf(informative.node, { view, feed: of }, out) : of;
}

/** By inner context, the scale of what was told here: NodeLikelihood.logs. */
function toldLogs(fed: FedNode): Float64Array {
  const { site, informative, group } = fed;
  const told = zeroTable(informative.outerOf.length);
  const { likelihood, space } = site.trunks[informative.trunk]!;
  const scale = likelihood[informative.node]?.logs;
  if (!scale) return told;
  const contexts = scale.length / space.feeds;
  const settings = (1 << informative.inner.length) - 1;
  for (let context = 0; context < told.length; context++) {
    const own = (context & settings) * site.headEnd.count + group;
    const number = feedNumber(fed, context);
    told[context] = number < 0 ? 0 : scale[number * contexts + own]!;
  }
  return told;
}

/** P(what is known here, and that the station does not short the supply, and does | feed). */
const STATION = new Float64Array(2);

/**
 * Sets STATION, or what stands for it.
 * @param classes where its first by the class of the station's mode are wanted too, they are put here
 */
function addStation(
  fed: FedNode,
  context: number,
  chances: Float64Array,
  classes: Float64Array | null = null,
): void {
  const { site, informative, group, feed, onlyQuiet } = fed;
  const { trunk, node } = informative;
  const model = site.trunks[trunk]!;
  const station = model.station[node];
  const number = feedNumber(fed, context);
  chances[0] = number < 0 || station ? 0 : 1;
  chances[1] = 0;
  if (classes) classes[0] = chances[0];
  if (number < 0 || !station) return;
  const likelihood = model.likelihood[node]?.table;
  const { feeds } = model.space;
  const { count } = site.system.stationClasses;
  const setting = context & ((1 << informative.inner.length) - 1);
  const from = (setting * site.headEnd.count + group) * count * feeds + number;
  const of = classOfFeed(site.system)[feed]!;
  for (let k = 0; k < station.classes.length; k++) {
    const isOut = onlyQuiet && !isQuietAt(site, informative, group, of, k);
    const told = isOut ? 0 : likelihood ? likelihood[from + k * feeds]! : 1;
    const chance = station.classes[k]! * told;
    if (classes) classes[k] = chance;
    chances[0] += chance;
    if (k === 0 && of === DEAD_FEED) chances[1] = station.short * told;
  }
}

/** P(what is known here, the class of the station's mode | feed), by class; at a junction box the first alone. */
export function stationMasses(
  fed: FedNode,
  context: number,
): { classes: Float64Array; shorted: number } {
  const { trunk, node } = fed.informative;
  const classes = zeroTable(fed.site.trunks[trunk]!.station[node]?.classes.length ?? 1);
  addStation(fed, context, STATION, classes);
  return { classes, shorted: STATION[1]! };
}
