/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ln, log1p } from '../../elementary/ln.js';
import type { FunctionName, FunctionSet } from '../../plan/functions.js';
import type { LocateRequest } from '../request/locate-request.js';
import { logAdd } from '../numbers/log-add.js';
import type { SiteModel } from '../sweep/site.js';
import { PLAN } from './default-system.js';
import type { NamedFault } from './named-fault.js';
import { disabledEverywhere, relevance } from './relevance.js';
import { weighTrunk, type WeightSum } from './weigh-trunk.js';
import { type WorldTrunk, worldTrunk } from './world-trunk.js';

/** A site made ready for weighing worlds. */
export interface WorldSite {
  readonly site: SiteModel;
  readonly trunks: readonly WorldTrunk[];
  /** By flag: log of the likelihood of all that the informant said, if confused. */
  readonly ifConfused: Float64Array;
  /** By head-end group and trunk: the trunk's share if nothing is named on it. */
  readonly untouched: Map<number, WeightSum>;
}

export function worldSite(site: SiteModel, request: LocateRequest): WorldSite {
  const { observations = [], unmentioned } = request;
  const said = site.trunks.map(({ tree }) => {
    const at = new Map(tree.nodeIds.map((id, n) => [id, n]));
    const sets: FunctionSet[] = tree.nodeIds.map(() => 0);
    for (const { trunk, node, function: name } of observations)
      if (trunk === tree.id) sets[at.get(node)!]! |= 1 << PLAN.functions.indexOf(name);
    return sets;
  });
  const spokenOf = [...said.flat(), ...(unmentioned?.functions ?? []).map(bitOf)];
  const relevant = relevance(
    site.headEnd,
    spokenOf.reduce((all, set) => all | set, 0),
  );
  const ifConfused = new Float64Array(site.flags.length);
  for (const { statements } of site.trunks)
    for (const { flag, ifConfused: likelihood } of statements.flat())
      if (flag >= 0) ifConfused[flag]! += ln(likelihood);
  return {
    site,
    trunks: site.trunks.map((model, t) => worldTrunk(site, model, said[t]!, relevant)),
    ifConfused,
    untouched: new Map(),
  };
}

function bitOf(name: FunctionName): FunctionSet {
  return 1 << PLAN.functions.indexOf(name);
}

/** A trunk's share; null if a named fault makes no difference there. */
function trunkShare(
  world: WorldSite,
  t: number,
  faults: readonly NamedFault[],
  group: number,
): WeightSum | null {
  const { site, trunks, untouched } = world;
  const key = t * site.headEnd.count + group;
  const known = faults.length === 0 ? untouched.get(key) : undefined;
  if (known) return known;
  const sum: WeightSum = { log: 0, flags: new Float64Array(site.flags.length) };
  const isWorld = weighTrunk(
    trunks[t]!,
    faults,
    group,
    disabledEverywhere(site.headEnd, group),
    sum,
  );
  if (isWorld && faults.length === 0) untouched.set(key, sum);
  return isWorld ? sum : null;
}

/**
 * log P(exactly these faults make a difference, evidence): the prior of everything, times the likelihood of all evidence,
 * summed over what makes none. -Infinity if one of the faults makes no difference beside the others.
 */
export function logWeight(world: WorldSite, faults: readonly NamedFault[]): number {
  const { site, trunks, ifConfused } = world;
  const headEnd = faults.find((fault) => fault.at === 'head-end');
  const group = headEnd?.group ?? 0;
  let log = ln(site.headEnd.chance[group]!);
  const flags = new Float64Array(site.flags.length);
  for (let t = 0; t < trunks.length; t++) {
    const own = faults.filter((fault) => fault.at !== 'head-end' && fault.trunk === t);
    const share = trunkShare(world, t, own, group);
    if (!share) return -Infinity;
    log += share.log;
    for (let f = 0; f < flags.length; f++) flags[f]! += share.flags[f]!;
  }
  for (let f = 0; f < flags.length; f++) {
    const { confused } = site.flags[f]!;
    log += logAdd(log1p(-confused) + flags[f]!, ln(confused) + ifConfused[f]!);
  }
  return log;
}
