/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { FunctionSet } from '../../plan/functions.js';
import { DEAD_FEED } from '../sweep/feed-classes.js';
import { groupOf } from '../sweep/head-end-groups.js';
import { seenWeights } from '../sweep/looks.js';
import type { SiteModel } from '../sweep/site.js';
import type { TrunkModel } from '../sweep/trunk-model.js';
import { conditionParts } from './condition-chances.js';
import type { CheckAction } from './check-action.js';
import { type OutcomeRows, VOLTS_ROWS } from './check-outcomes.js';
import { trunkWithout } from './spans-in-question.js';

/** A check at one station, by positions in the site's model. */
export interface StationCheck {
  readonly t: number;
  readonly n: number;
  readonly func: number;
  /** As conditionParts takes it. */
  readonly mended: number;
}

/**
 * The site as it stands once a check has had an outcome: its evidence is then P(evidence, outcome). The head-end's groups
 * must tell all functions apart.
 */
export function siteGivenStation(
  site: SiteModel,
  check: StationCheck,
  rows: OutcomeRows,
  outcome: number,
): SiteModel {
  const told = rows.map((row) => row[outcome]!);
  const trunks = site.trunks.map((trunk, t) =>
    t === check.t
      ? trunkGiven(trunk, site.headEnd.disables[trunk.zone[check.n]!]!, check, told)
      : trunk,
  );
  return { ...site, trunks };
}

function trunkGiven(
  trunk: TrunkModel,
  headEndDisables: readonly number[],
  { n, func, mended }: StationCheck,
  told: readonly number[],
): TrunkModel {
  return withStationKnown(trunk, headEndDisables.length, n, (group, station, feed) => {
    const headEnd = headEndDisables[group]!;
    const [good, weak, dead] = conditionParts(trunk.system, func, feed, headEnd, station, mended);
    return good * told[0]! + weak * told[1]! + dead * told[2]!;
  });
}

/** `likelihoodOf` a head-end group, what the station's mode disables, and the class of the feed. */
function withStationKnown(
  trunk: TrunkModel,
  groups: number,
  n: number,
  likelihoodOf: (group: number, station: FunctionSet, feed: number) => number,
): TrunkModel {
  const known = trunk.likelihood[n]!;
  const { feeds } = trunk.space;
  const [whole = new Uint8Array()] = trunk.space.classes;
  const { count: classes, disables } = trunk.system.stationClasses;
  const ofGroups = new Float64Array(groups * classes * feeds);
  for (let group = 0, at = 0; group < groups; group++)
    for (let k = 0; k < classes; k++)
      for (let feed = 0; feed < feeds; feed++)
        ofGroups[at++] = likelihoodOf(group, disables[k]!, whole[feed]!);
  const table = new Float64Array(ofGroups.length << trunk.plan.nodeFlags[n]!.length);
  for (let i = 0; i < table.length; i++)
    table[i] = (known ? known.table[i]! : 1) * ofGroups[i % ofGroups.length]!;
  const given = { table, logs: known?.logs ?? null };
  return { ...trunk, likelihood: replaced(trunk.likelihood, n, given) };
}

function replaced<T>(list: readonly T[], at: number, by: T): T[] {
  return list.map((one, i) => (i === at ? by : one));
}

function withTrunk(site: SiteModel, t: number, by: (trunk: TrunkModel) => TrunkModel): SiteModel {
  return { ...site, trunks: site.trunks.map((trunk, at) => (at === t ? by(trunk) : trunk)) };
}

/** The same for a supply that is read as full, weak or dead. */
export function siteGivenVolts(site: SiteModel, t: number, n: number, read: number): SiteModel {
  const { weak } = site.system.feedClasses;
  return withTrunk(site, t, (trunk) =>
    withStationKnown(trunk, site.headEnd.count, n, (_group, _station, feed) => {
      const truth = feed === DEAD_FEED ? 2 : weak[feed]!;
      return VOLTS_ROWS[truth]![read]!;
    }),
  );
}

/** The site with every open ruled out on some spans of one trunk. */
export function siteWithoutOpens(
  site: SiteModel,
  t: number,
  spans: ReadonlySet<number>,
): SiteModel {
  return withTrunk(site, t, (trunk) => trunkWithout(trunk, spans, ({ removes }) => removes > 0));
}

/** The site once somebody looked at a junction of the span into a node; `seen` as lookFactors gives it. */
export function siteGivenJunction(
  site: SiteModel,
  t: number,
  n: number,
  part: 'junctionOut' | 'junctionIn',
  seen: Float64Array,
): SiteModel {
  return withTrunk(site, t, (trunk) => {
    const { priors } = trunk;
    return { ...trunk, [part]: replaced(trunk[part], n, priors.span(n, part, seen)) };
  });
}

/** The same of a part of a station. */
export function siteGivenUnit(
  site: SiteModel,
  t: number,
  n: number,
  factors: Float64Array,
): SiteModel {
  const { stationModes } = site.system.plan;
  return withTrunk(site, t, (trunk) => {
    const { priors, station, weights } = trunk;
    const before = weights[n]!;
    const own = { ...before, station: seenWeights(before.station, stationModes, { factors }) };
    return {
      ...trunk,
      station: replaced(station, n, priors.station(n, factors)),
      weights: replaced(weights, n, own),
    };
  });
}

/** The same of the head-end; its groups must be of modes that act alike. */
export function siteGivenHeadEnd(site: SiteModel, seen: Float64Array): SiteModel {
  const { headEnd } = site;
  const { chance, share, ofMode } = headEnd;
  const left = new Float64Array(headEnd.count);
  share.forEach((own, m) => (left[ofMode[m]!]! += own * seen[m]!));
  return {
    ...site,
    headEnd: {
      ...headEnd,
      chance: chance.map((prior, group) => prior * left[group]!),
      share: share.map((own, m) =>
        left[ofMode[m]!]! > 0 ? (own * seen[m]!) / left[ofMode[m]!]! : 0,
      ),
    },
  };
}

/** The same for a look at a setting of the head-end. */
export function siteGivenSetting(
  site: SiteModel,
  { setting }: Extract<CheckAction, { kind: 'head-end' }>,
  rows: OutcomeRows,
  outcome: number,
): SiteModel {
  const { headEnd } = site;
  const [right, wrong] = rows.map((row) => row[outcome]!);
  const group = groupOf(headEnd, setting);
  const chance = headEnd.chance.map((prior, g) => prior * (g === group ? wrong! : right!));
  return { ...site, headEnd: { ...headEnd, chance } };
}
