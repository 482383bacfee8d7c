/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ln } from '../../elementary/ln.js';
import { ALL_CORES, SUPPLY } from '../../plan/cores.js';
import { DEAD_FEED } from '../sweep/feed-classes.js';
import { FEED_CLASSES, FEEDS } from './default-system.js';
import { type NamedFault, STATION_SHORT } from './named-fault.js';
import { termAt } from './node-terms.js';
import { SERVED_BY, feedWithout } from './relevance.js';
import { SHORTS_OF } from './span-effects.js';
import { unnamedSpanLog, weighSpan } from './weigh-span.js';
import { logBeyond, type WorldTrunk } from './world-trunk.js';

type SpanFault = Extract<NamedFault, { at: 'span' }>;
type StationFault = Extract<NamedFault, { at: 'station' }>;

/** What is named on one trunk, by node. */
interface Named {
  noOutput: boolean;
  spans: (SpanFault | undefined)[];
  stations: (StationFault | undefined)[];
  /** 1 where something is named at the node, on the span into it, or below. */
  below: Uint8Array;
  /** Cores whose short is named at the node or below, the span into it left out. */
  shorts: Uint8Array;
}

/** A world's weight is summed up here: logarithms. */
export interface WeightSum {
  log: number;
  /** By flag (SiteModel): what the informant said, if not confused. */
  readonly flags: Float64Array;
}

function sortOut({ model: { tree }, work }: WorldTrunk, faults: readonly NamedFault[]): Named {
  const named: Named = {
    noOutput: false,
    spans: [],
    stations: [],
    below: work.below.fill(0),
    shorts: work.shorts.fill(0),
  };
  for (const fault of faults) {
    if (fault.at === 'port') named.noOutput = true;
    if (fault.at !== 'span' && fault.at !== 'station') continue;
    if (fault.at === 'span') named.spans[fault.node] = fault;
    else named.stations[fault.node] = fault;
    const shorts = fault.at === 'span' ? SHORTS_OF[fault.effect]! : shortOf(fault);
    if (fault.at === 'station') named.shorts[fault.node]! |= shorts;
    for (let n = fault.node; n >= 0; n = tree.parent[n]!) {
      named.below[n] = 1;
      if (tree.parent[n]! >= 0) named.shorts[tree.parent[n]!]! |= shorts;
    }
  }
  return named;
}

function shortOf(fault: StationFault): number {
  return fault.group === STATION_SHORT ? SUPPLY : 0;
}

/** Adds what was said at a node, given its feed and its station's modes. */
function addTold(sum: WeightSum, trunk: WorldTrunk, n: number, at: number): void {
  const { told, flagged } = trunk.nodes[n]!;
  sum.log += told[at]!;
  for (const { flag, log } of flagged) sum.flags[flag]! += log[at]!;
}

/** The station's share; NaN if what is named makes no difference here. */
function stationLog(
  trunk: WorldTrunk,
  n: number,
  fault: StationFault | undefined,
  given: { group: number; feed: number; hidden: number },
): number {
  const chances = trunk.model.station[n];
  if (!chances) return 0;
  const { ordinary, ordinaryOrShort, silence, differs } = trunk.nodes[n]!;
  const { group, feed, hidden } = given;
  if (!fault) return (hidden & SUPPLY ? ordinaryOrShort : ordinary)[group * FEED_CLASSES + feed]!;
  const isShort = fault.group === STATION_SHORT;
  if (isShort && hidden & SUPPLY) return NaN;
  const at = termAt(group, isShort ? 0 : fault.group, feed);
  if (!isShort && !differs[at]) return NaN;
  return ln(isShort ? chances.short : chances.classes[fault.group]!) + silence[at]!;
}

/** The port's share; NaN if no output makes no difference. */
function portLog({ model, relevance }: WorldTrunk, group: number, feed: number, named: boolean) {
  const at = group * FEED_CLASSES;
  const differs = relevance.alike[at + feed] !== relevance.alike[at + DEAD_FEED];
  if (!differs) return named ? NaN : ln(model.portOk + model.portNoOutput);
  return ln(named ? model.portNoOutput : model.portOk);
}

/** Nothing that was said there depends on anything from here on. */
function isBeyond(said: number, feed: number, disables: number): boolean {
  return !(said & ~disables & SERVED_BY[feed]!);
}

/**
 * Adds one trunk's share of a world's weight, given the head-end's group; false if a named fault makes no difference in
 * this world, which is then another one. Linear in the nodes.
 */
export function weighTrunk(
  trunk: WorldTrunk,
  faults: readonly NamedFault[],
  group: number,
  disables: number,
  sum: WeightSum,
): boolean {
  const { tree } = trunk.model;
  if (isBeyond(trunk.said, FEEDS.full, disables)) {
    for (let n = 0; n < tree.count; n++) addTold(sum, trunk, n, termAt(group, 0, FEEDS.full));
    sum.log += trunk.silence.port.logEvidence[group]!;
    return faults.length === 0;
  }
  const named = sortOut(trunk, faults);
  const shorts = tree.first.reduce(
    (set, n) => set | named.shorts[n]! | shortsOn(named.spans[n]),
    0,
  );
  const hidden = trunk.relevance.spareCores[group]!;
  const isPowerless = trunk.model.isPowerless[group] === 1;
  const arriving = isPowerless ? DEAD_FEED : FEEDS.of(ALL_CORES & ~shorts, false);
  sum.log += portLog(trunk, group, arriving, named.noOutput);
  const start = named.noOutput ? feedWithout(arriving, SUPPLY) : arriving;
  return !Number.isNaN(descend(trunk, named, { group, disables, start, hidden }, sum));
}

function shortsOn(fault: SpanFault | undefined): number {
  return fault ? SHORTS_OF[fault.effect]! : 0;
}

/** From the port to the last nodes; answers the sum's logarithm. */
function descend(
  trunk: WorldTrunk,
  named: Named,
  given: { group: number; disables: number; start: number; hidden: number },
  sum: WeightSum,
): number {
  const { tree } = trunk.model;
  const { group, disables } = given;
  const { feeds, hides, isSummed } = trunk.work;
  hides.fill(0);
  isSummed.fill(0);
  for (let n = 0; n < tree.count; n++) {
    const parent = tree.parent[n]!;
    const feed = parent < 0 ? given.start : feeds[parent]!;
    const hidden = parent < 0 ? given.hidden : hides[parent]!;
    const inside = parent >= 0 && isSummed[parent]! === 1;
    const beyond = inside || isBeyond(trunk.saidBelow[n]!, feed, disables);
    if (beyond && !named.below[n]) {
      isSummed[n] = 1;
      feeds[n] = feed;
      if (!inside) sum.log += logBeyond(trunk, n, group, feed, hidden);
      addTold(sum, trunk, n, termAt(group, 0, feed));
      continue;
    }
    const shortBelow = named.shorts[n]! !== 0;
    addNode(trunk, n, named, { group, feed, hidden, shortBelow, isBeyond: beyond }, sum);
    if (Number.isNaN(sum.log)) return NaN;
  }
  return sum.log;
}

/** Of a node at which, or below which, something is named or said; `given` is what arrives at the span into it. */
function addNode(
  trunk: WorldTrunk,
  n: number,
  named: Named,
  given: { group: number; feed: number; hidden: number; isBeyond: boolean; shortBelow: boolean },
  sum: WeightSum,
): void {
  const { group } = given;
  const fault = named.spans[n];
  const span = fault && weighSpan(trunk, n, fault, given);
  sum.log += span ? span.log : unnamedSpanLog(trunk, n, given);
  const { feed, hidden } = span ?? given;
  trunk.work.feeds[n] = feed;
  trunk.work.hides[n] = hidden;
  const station = named.stations[n];
  sum.log += stationLog(trunk, n, station, { group, feed, hidden });
  if (Number.isNaN(sum.log)) return;
  const stationClass = station && station.group !== STATION_SHORT ? station.group : 0;
  addTold(sum, trunk, n, termAt(group, stationClass, feed));
}
