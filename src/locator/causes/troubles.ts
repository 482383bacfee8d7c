/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { Place } from '../../drawing/drawn-node.js';
import type { HeadEndModeName, StationMode } from '../../plan/modes.js';
import { headEndEffect } from '../../plan/plan-tables.js';
import type { LikelyPlace } from '../posterior/locate-result.js';
import { type ModeSplit, modeSplit } from '../posterior/mode-split.js';
import type { Quietness } from '../posterior/quietness.js';
import { comparePlaces, sortLargestFirst } from '../posterior/order.js';
import type { SweptSite } from '../sweep/sweep-site.js';
import { MOST_CAUSES, NOT_IN_QUESTION, type PointClass, pointClasses } from './causes-by-class.js';
import { Largest } from './largest.js';
import { type AtStation, atStation, type Point } from './point.js';
import { SPAN_PARTS } from '../../plan/look-errors.js';
import type { Cause, CauseChance, Trouble } from './trouble-answer.js';
import { WeakFeeds } from './weak-feeds.js';
import { zeroTable } from '../numbers/zero-table.js';

/** Points whose bad joint is looked for; of others only the chance that there is one is told. */
const MOST_WEAK = 50;
/** And the columns of all the spans on the ways to them: a third of a second. */
const MOST_WEAK_COLUMNS = 100_000;

/** For each place, the largest over the points of the chance that it is that point's cause; by node in a trunk. */
export interface TrunkAccounts {
  port: number;
  readonly spans: Float64Array;
  readonly stations: Float64Array;
}

export interface Accounts {
  headEnd: number;
  readonly trunks: readonly TrunkAccounts[];
}

interface Weighed {
  point: Point;
  of: PointClass;
  here: AtStation;
}

/** The causes of every point, in the order of `points`, and what each place accounts for. */
export function troublesOf(
  swept: SweptSite,
  points: readonly Point[],
  mixing: Quietness['mixing'],
): { troubles: Trouble[]; accounts: Accounts } {
  const accounts: Accounts = {
    headEnd: 0,
    trunks: swept.site.trunks.map(({ tree }) => ({
      port: 0,
      spans: zeroTable(tree.count),
      stations: zeroTable(tree.count),
    })),
  };
  const troubles = new Map<Point, Trouble>();
  const weighed = swept.site.trunks.flatMap((_, t) => {
    const mine = points.filter(({ trunk }) => trunk === t);
    if (mine.length === 0) return [];
    return pointClasses(swept, t, mine).flatMap((of) => {
      addShorts(accounts.trunks[t]!, of, mixing.weight);
      return of.points.map((point) => ({
        point,
        of,
        here: atStation(swept, point, of.working),
      }));
    });
  });
  const withWeak = likeliestWeak(swept, weighed);
  const within = new Map<PointClass, LikelyPlace[]>();
  const splits: StationSplits = new Map();
  const feeds = swept.site.trunks.map((_, t) => new WeakFeeds(swept, t));
  for (const one of weighed) {
    const { of, point, here } = one;
    const shorts = within.get(of) ?? placesWithin(swept, of);
    within.set(of, shorts);
    const weak = withWeak.has(one) ? feeds[point.trunk]!.to(point, of.working, here.weak) : null;
    troubles.set(point, trouble(swept, one, weak, shorts, mixing, accounts, splits));
  }
  return { troubles: points.map((point) => troubles.get(point)!), accounts };
}

/** Those whose bad joint is looked for, the likeliest first. */
function likeliestWeak(swept: SweptSite, weighed: readonly Weighed[]): Set<Weighed> {
  const likeliest = weighed
    .filter(({ here }) => here.weak > NOT_IN_QUESTION)
    .sort((a, b) => b.here.weak - a.here.weak)
    .slice(0, MOST_WEAK);
  let columns = 0;
  return new Set(
    likeliest.filter(({ point }) => {
      const { model, tables } = swept.sweeps[point.trunk]!;
      for (let n = point.node; n >= 0; n = model.tree.parent[n]!)
        columns += tables.spans[n]!.columns;
      return columns <= MOST_WEAK_COLUMNS;
    }),
  );
}

const raise = (table: Float64Array, at: number, value: number) =>
  (table[at] = Math.max(table[at]!, value));

/** Places that are on no way to a point account for it by a short of theirs alone. */
function addShorts(accounts: TrunkAccounts, of: PointClass, weight: number): void {
  for (let n = 0; n < accounts.spans.length; n++) {
    raise(accounts.spans, n, weight * of.shortSpans[n]!);
    raise(accounts.stations, n, weight * of.shortStations[n]!);
  }
}

function spanPlace(swept: SweptSite, trunk: number, n: number): Place & { kind: 'span' } {
  const { id, nodeIds, parent } = swept.site.trunks[trunk]!.tree;
  return { kind: 'span', trunk: id, from: nodeIds[parent[n]!] ?? null, to: nodeIds[n]! };
}

function placesWithin(swept: SweptSite, of: PointClass): LikelyPlace[] {
  const { trunk } = of.points[0]!;
  const { id, nodeIds } = swept.site.trunks[trunk]!.tree;
  const largest = new Largest(MOST_CAUSES);
  for (let n = 0; n < nodeIds.length; n++) {
    largest.add(2 * n, of.shortSpans[n]!);
    largest.add(2 * n + 1, of.shortStations[n]!);
  }
  const places = largest.entries().map(({ key, size }): LikelyPlace => {
    const n = Math.floor(key / 2);
    const place =
      key % 2 === 0
        ? spanPlace(swept, trunk, n)
        : { kind: 'station' as const, trunk: id, node: nodeIds[n]! };
    return { place, probability: size / of.short };
  });
  return sortLargestFirst(
    places,
    ({ probability }) => probability,
    (a, b) => comparePlaces(a.place, b.place),
  );
}

/** The causes on the way of one point: components that take the function from it, and bad joints. */
function onTheWay(
  swept: SweptSite,
  { point, of }: Weighed,
  weak: Float64Array | null,
  { weight }: Quietness['mixing'],
  spans: Float64Array,
): Largest {
  const { parent } = swept.site.trunks[point.trunk]!.tree;
  if (!weak) {
    for (let n = point.node; n >= 0; n = parent[n]!)
      raise(spans, n, weight * (takenIn(of, n) + of.shortSpans[n]!));
    return of.likeliest(point.node);
  }
  const largest = new Largest(MOST_CAUSES);
  let at = 0;
  for (let n = point.node; n >= 0; n = parent[n]!) {
    let sum = takenIn(of, n) + of.shortSpans[n]!;
    for (let key = n * 3; key < n * 3 + 3; key++) {
      const mass = weak[at++]!;
      largest.add(key, of.taken[key]! + mass);
      sum += mass;
    }
    raise(spans, n, weight * sum);
  }
  return largest;
}

const takenIn = ({ taken }: PointClass, n: number) =>
  taken[n * 3]! + taken[n * 3 + 1]! + taken[n * 3 + 2]!;

/** The modes of the head-end that silence a point, with their masses. */
export function silencingModes(
  { site, masses }: Pick<SweptSite, 'site' | 'masses'>,
  { trunk, node, func }: Point,
): [string, number][] {
  const { ofMode, share, modes } = site.headEnd;
  const { groups = [] } = site.trunks[trunk]!.tree.nodes[node]!;
  const silences = (mode: HeadEndModeName) => {
    const { disables, group } = headEndEffect(site.system.plan, mode);
    return disables & (1 << func) && (group === null || groups.includes(group));
  };
  return modes.flatMap((mode, m): [string, number][] =>
    silences(mode) ? [[mode, (masses.groups[ofMode[m + 1] ?? 0] ?? 0) * (share[m + 1] ?? 0)]] : [],
  );
}

/** By the table that they are by: most stations share one. */
type StationSplits = Map<object, ModeSplit>;

function stationSplit({ site }: SweptSite, point: Point, known: StationSplits): ModeSplit {
  const { plan, stationClasses } = site.system;
  const weights = site.trunks[point.trunk]!.weights[point.node]!.station;
  const split = known.get(weights) ?? modeSplit(weights, plan.stationModes, stationClasses.ofMode);
  known.set(weights, split);
  return split;
}

function trouble(
  swept: SweptSite,
  weighed: Weighed,
  weak: Float64Array | null,
  within: LikelyPlace[],
  mixing: Quietness['mixing'],
  accounts: Accounts,
  splits: StationSplits,
): Trouble {
  const { point, of, here } = weighed;
  const { id: trunk, nodeIds } = swept.site.trunks[point.trunk]!.tree;
  const node = nodeIds[point.node]!;
  const own = accounts.trunks[point.trunk]!;
  const { weight } = mixing;
  const causes: CauseChance[] = [];
  const list = (cause: Cause, mass: number) => {
    if (mass > 0) causes.push({ cause, probability: weight * mass });
  };
  const way = onTheWay(swept, weighed, weak, mixing, own.spans);
  for (const { key, size } of way.entries()) {
    const { from, to } = spanPlace(swept, point.trunk, Math.floor(key / 3));
    list({ kind: 'span', trunk, from, to, component: SPAN_PARTS[key % 3]! }, size);
  }
  let headEnd = 0;
  for (const [mode, mass] of silencingModes(swept, point)) {
    list({ kind: 'head-end', mode }, mass);
    headEnd += mass;
  }
  let station = of.shortStations[point.node]!;
  const { names, classes, shares } = stationSplit(swept, point, splits);
  for (let m = 0; m < names.length; m++) {
    const mass = here.byClass[classes[m]!] ?? 0;
    list({ kind: 'station', trunk, node, mode: names[m] as StationMode }, mass * shares[m]!);
    station += mass * shares[m]!;
  }
  accounts.headEnd = Math.max(accounts.headEnd, weight * headEnd);
  own.port = Math.max(own.port, weight * of.noOutput);
  raise(own.stations, point.node, weight * station);
  list({ kind: 'port', trunk }, of.noOutput);
  if (of.short > NOT_IN_QUESTION)
    causes.push({ cause: { kind: 'short', trunk }, probability: weight * of.short, within });
  if (!weak && here.weak > NOT_IN_QUESTION) list({ kind: 'weak-feed', trunk }, here.weak);
  const nothing = weight * here.good - mixing.quiet;
  if (nothing > 0) causes.push({ cause: { kind: 'nothing' }, probability: nothing });
  return {
    function: swept.site.system.plan.functions[point.func]!,
    trunk,
    node,
    causes: shorten(causes, weight * way.rest),
  };
}

const KINDS: readonly Cause['kind'][] = [
  'head-end',
  'port',
  'short',
  'span',
  'station',
  'weak-feed',
  'nothing',
  'rest',
];

function compareCauses({ cause: a }: CauseChance, { cause: b }: CauseChance): number {
  const kinds = KINDS.indexOf(a.kind) - KINDS.indexOf(b.kind);
  if (kinds !== 0) return kinds;
  return JSON.stringify(a) < JSON.stringify(b) ? -1 : 1;
}

/** Most probable first; what is beyond the most that are listed goes to `rest`. */
function shorten(causes: readonly CauseChance[], beyond: number): CauseChance[] {
  const sorted = sortLargestFirst(causes, ({ probability }) => probability, compareCauses);
  const rest = sorted
    .slice(MOST_CAUSES)
    .reduce((sum, { probability }) => sum + probability, beyond);
  const listed = sorted.slice(0, MOST_CAUSES);
  if (rest > 0) listed.push({ cause: { kind: 'rest' }, probability: rest });
  return listed;
}
