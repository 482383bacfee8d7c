/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ln } from '../../elementary/ln.js';
import { ALL_CORES, type CoreSet, SUPPLY } from '../../plan/cores.js';
import type { FunctionSet } from '../../plan/functions.js';
import { viewAbove } from '../../plan/modes.js';
import { DEAD_FEED } from '../sweep/feed-classes.js';
import { conditionOf } from '../sweep/node-likelihood.js';
import type { SiteModel } from '../sweep/site.js';
import type { SpanChances } from '../sweep/span-chances.js';
import type { TrunkModel } from '../sweep/trunk-model.js';

/** Uniform on [0, 1). */
export type Random = () => number;

/** What is true of a function at a station in one way of connecting the trunk (Statement.way): 0 good, 1 weak, 2 dead. */
export type ConditionAt = (trunk: number, node: number, func: number, way: number) => 0 | 1 | 2;

const OK = -1;

export interface DrawnConditions {
  readonly conditionAt: ConditionAt;
  /** ln of the chance of modes that act as those drawn do, component for component. */
  readonly logChance: number;
}

/** Draws every component's mode from its prior and works out what follows (fault model, sections 2 and 3). */
export function drawConditions(site: SiteModel, random: Random): DrawnConditions {
  const { chance } = site.headEnd;
  const group = drawIndex(chance, random() * sum(chance));
  const trunks = site.trunks.map((trunk) => drawTrunk(trunk, group, random));
  return {
    conditionAt: (t, n, func, way) => {
      const { feeds, disables } = trunks[t]!;
      const headEnd = site.headEnd.disables[site.trunks[t]!.zone[n]!]![group]!;
      return conditionOf(site.system.feedClasses, func, feeds[way]![n]!, headEnd | disables[n]!);
    },
    logChance: trunks.reduce((log, trunk) => log + trunk.logChance, ln(chance[group]!)),
  };
}

interface DrawnTrunk {
  /** By way of connecting the trunk, class of the feed at each node. */
  feeds: Uint8Array[];
  /** Functions that each station's own mode disables. */
  disables: FunctionSet[];
  /** As that of DrawnConditions. */
  logChance: number;
}

function drawTrunk(model: TrunkModel, group: number, random: Random): DrawnTrunk {
  const { feedClasses, stationClasses } = model.system;
  const { count } = model.tree;
  const spans = new Int8Array(count * 3);
  const stations = new Int8Array(count);
  let logChance = 0;
  for (let n = 0; n < count; n++) {
    const parts = [model.junctionOut[n]!, model.cable[n]!, model.junctionIn[n]!];
    parts.forEach((part, i) => {
      const effect = drawEffect(part, random);
      spans[n * 3 + i] = effect;
      logChance += ln(effect === OK ? part.ok : part.effects[effect]!);
    });
    const station = model.station[n];
    if (!station) continue;
    const chances = [...station.classes, station.short];
    stations[n] = drawIndex(chances, random());
    logChance += ln(chances[stations[n]!]!);
  }
  const hasNoOutput = random() < model.portNoOutput;
  logChance += ln(hasNoOutput ? model.portNoOutput : model.portOk);
  const isDead = hasNoOutput || model.isPowerless[group] === 1;
  const feeds = model.space.classes.map((_, way) => {
    const seen = viewAtPort(model, spans, stations, way);
    const start = isDead ? DEAD_FEED : feedClasses.of(ALL_CORES & ~seen, false);
    return feedsFrom(model, spans, start, way);
  });
  const disables = Array.from(stations, (k) => stationClasses.disables[k] ?? 0);
  return { feeds, disables, logChance };
}

const isCut = ({ cutAt }: TrunkModel, feeder: number, way: number) =>
  way > 0 && cutAt[feeder] === way;

/** Class of the feed at each node. */
function feedsFrom(model: TrunkModel, spans: Int8Array, start: number, way: number): Uint8Array {
  const { count } = model.tree;
  const { feedClasses } = model.system;
  const feeds = new Uint8Array(count);
  for (let n = 0; n < count; n++) {
    const feeder = model.tree.parent[n]!;
    let feed = feeder < 0 ? start : isCut(model, feeder, way) ? DEAD_FEED : feeds[feeder]!;
    for (let i = n * 3; i < n * 3 + 3; i++)
      if (spans[i] !== OK) feed = feedClasses.below(model.effects.does[spans[i]!]!, feed);
    feeds[n] = feed;
  }
  return feeds;
}

/** Which cores' shorts are to be seen from the port. */
function viewAtPort(
  model: TrunkModel,
  spans: Int8Array,
  stations: Int8Array,
  way: number,
): CoreSet {
  const { tree, effects } = model;
  const short = model.system.stationClasses.count;
  const views = new Uint8Array(tree.count);
  let seen = 0;
  for (let n = tree.count - 1; n >= 0; n--) {
    let view = views[n]! | (stations[n] === short ? SUPPLY : 0);
    for (let i = n * 3 + 2; i >= n * 3; i--)
      if (spans[i] !== OK) view = viewAbove(effects.does[spans[i]!]!, view);
    const feeder = tree.parent[n]!;
    if (feeder < 0) seen |= view;
    else if (!isCut(model, feeder, way)) views[feeder]! |= view;
  }
  return seen;
}

function drawEffect({ ok, effects }: SpanChances, random: Random): number {
  const at = random();
  return at < ok ? OK : drawIndex(effects, at - ok);
}

/** The index at which the running sum passes `left`; the last with any chance where rounding leaves some over. */
export function drawIndex(chances: ArrayLike<number>, left: number): number {
  let last = 0;
  for (let i = 0; i < chances.length; i++) {
    const chance = chances[i]!;
    if (chance <= 0) continue;
    if (left < chance) return i;
    left -= chance;
    last = i;
  }
  return last;
}

function sum(chances: Float64Array): number {
  return chances.reduce((total, chance) => total + chance, 0);
}
