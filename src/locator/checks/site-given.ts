/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { groupOf } from '../sweep/head-end-groups.js';
import type { SiteModel } from '../sweep/site.js';
import type { TrunkModel } from '../sweep/trunk-model.js';
import { conditionParts } from './condition-chances.js';
import type { CheckAction } from './check-action.js';
import type { OutcomeRows } from './check-outcomes.js';

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
  const groups = headEndDisables.length;
  const contexts = groups << trunk.plan.nodeFlags[n]!.length;
  const known = trunk.likelihood[n]!;
  const { feeds } = trunk.space;
  const [whole = new Uint8Array()] = trunk.space.classes;
  const { count: classes, disables } = trunk.system.stationClasses;
  const table = new Float64Array(contexts * classes * feeds);
  for (let i = 0; i < table.length; i++) {
    const feed = whole[i % feeds]!;
    const station = disables[Math.floor(i / feeds) % classes]!;
    const context = Math.floor(i / feeds / classes);
    const headEnd = headEndDisables[context % groups]!;
    const [good, weak, dead] = conditionParts(trunk.system, func, feed, headEnd, station, mended);
    const likelihood = good * told[0]! + weak * told[1]! + dead * told[2]!;
    table[i] = (known ? known.table[i]! : 1) * likelihood;
  }
  const given = { table, logs: known?.logs ?? null };
  return { ...trunk, likelihood: trunk.likelihood.map((one, at) => (at === n ? given : one)) };
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
