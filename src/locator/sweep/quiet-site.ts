import { zeroTable } from '../numbers/zero-table.js';
import type { FunctionSet } from '../../plan/functions.js';
import type { FeedClasses } from './feed-classes.js';
import { type HeadEndGroups, onlyGroups } from './head-end-groups.js';
import { conditionOf, type NodeLikelihood } from './node-likelihood.js';
import type { SiteModel } from './site.js';
import type { TrunkModel } from './trunk-model.js';

/** Whether anything was complained of, with the trunk whole. */
export function hasPoints({ trunks }: SiteModel): boolean {
  return trunks.some(({ points }) => points.some((functions) => functions > 0));
}

/**
 * The site with it taken for certain that all is well that was complained of (fault model, section 4): what it makes of
 * the evidence is the mass of the quiet worlds. Its head-end has only the groups that leave all of that working.
 */
export function quietSite(site: SiteModel): SiteModel {
  const isQuiet = quietGroups(site);
  const kept = onlyGroups(site.headEnd, (group) => isQuiet[group] === true);
  const trunks = site.trunks.map((trunk) => quietTrunk(trunk, kept, isQuiet));
  return { ...site, headEnd: kept, trunks };
}

/** By group of the head-end, whether it leaves working all that was complained of. */
export function quietGroups({ headEnd, trunks }: SiteModel): boolean[] {
  const { count, disables } = headEnd;
  return Array.from({ length: count }, (_, group) =>
    trunks.every(({ points, zone }) =>
      points.every((functions, n) => !(functions & (disables[zone[n] ?? 0]?.[group] ?? 0))),
    ),
  );
}

/** One trunk of a quiet site, of whose groups only those that are quiet are kept. */
export function quietTrunk(
  trunk: TrunkModel,
  kept: HeadEndGroups,
  isQuiet: readonly boolean[],
): TrunkModel {
  const plan = { ...trunk.plan, groups: kept.count };
  const quiet = { ...trunk, plan, isPowerless: kept.isPowerless };
  const groups = [...isQuiet.keys()].filter((group) => isQuiet[group]);
  const { groups: count } = trunk.plan;
  const known = new Map<NodeLikelihood, NodeLikelihood>();
  const likelihood = trunk.likelihood.map((whole, n) => {
    if (!whole) return null;
    // Many stations share one.
    const own =
      known.get(whole) ?? (groups.length === count ? whole : ofGroups(whole, groups, count, trunk));
    known.set(whole, own);
    return onlyGood(quiet, n, own, kept);
  });
  return { ...quiet, likelihood };
}

/** What is known at a node, of some of so many head-end groups alone. */
function ofGroups(
  { table, logs }: NodeLikelihood,
  groups: readonly number[],
  count: number,
  { system: { stationClasses }, space: { feeds } }: TrunkModel,
): NodeLikelihood {
  return {
    table: blocksOf(table, groups, count, stationClasses.count * feeds),
    logs: logs && blocksOf(logs, groups, count, 1),
  };
}

/** Of each `count` blocks of a table in a row those of these groups. */
function blocksOf(
  table: Float64Array,
  groups: readonly number[],
  count: number,
  block: number,
): Float64Array {
  const kept = zeroTable((table.length / count) * groups.length);
  for (let from = 0, to = 0; from < table.length; from += count * block)
    for (const group of groups) {
      const at = from + group * block;
      for (let i = at; i < at + block; i++) kept[to++] = table[i] ?? 0;
    }
  return kept;
}

/** Without what leaves a function at a point weak or dead. */
function onlyGood(
  { system: { stationClasses, feedClasses }, points, zone, space }: TrunkModel,
  n: number,
  likelihood: NodeLikelihood | null,
  { count, disables }: SiteModel['headEnd'],
): NodeLikelihood | null {
  const functions: FunctionSet = points[n] ?? 0;
  if (functions === 0 || !likelihood) return likelihood;
  const headEnd = disables[zone[n] ?? 0] ?? [];
  const [whole = new Uint8Array()] = space.classes;
  const table = likelihood.table.map((chance, i) => {
    const feed = whole[i % space.feeds] ?? 0;
    const station =
      stationClasses.disables[Math.floor(i / space.feeds) % stationClasses.count] ?? 0;
    const group = Math.floor(i / space.feeds / stationClasses.count) % count;
    const isGood = areGood(feedClasses, functions, feed, (headEnd[group] ?? 0) | station);
    return isGood ? chance : 0;
  });
  return { ...likelihood, table };
}

/**
 * Whether all is well that was complained of at a node, by the class of its feed with the trunk whole and the class of its
 * station's mode.
 */
export function isQuietAt(
  { system: { feedClasses, stationClasses }, headEnd, trunks }: SiteModel,
  { trunk, node }: { readonly trunk: number; readonly node: number },
  group: number,
  feed: number,
  station: number,
): boolean {
  const model = trunks[trunk];
  const disabled = headEnd.disables[model?.zone[node] ?? 0]?.[group] ?? 0;
  const own = stationClasses.disables[station] ?? 0;
  return areGood(feedClasses, model?.points[node] ?? 0, feed, disabled | own);
}

function areGood(
  feedClasses: FeedClasses,
  functions: FunctionSet,
  feed: number,
  disabled: FunctionSet,
): boolean {
  for (let func = 0; functions >> func > 0; func++)
    if (functions & (1 << func) && conditionOf(feedClasses, func, feed, disabled) !== 0)
      return false;
  return true;
}
