import { joinTrunks, type SiteMasses, type SiteModel } from '../sweep/site.js';
import { allContexts } from '../sweep/live-contexts.js';
import { sweepDown, sweepUp, type TrunkMasses, type UpwardSweep } from '../sweep/sweep-trunk.js';
import { trunkLikelihood } from '../sweep/trunk-model.js';
import type { StatementsOfOne } from '../sweep/statements.js';
import { PassingSweeps } from './passing-sweeps.js';

/** A site with its evidence by sitting, swept as if nothing came and went. */
export interface SweptSittings {
  readonly site: SiteModel;
  readonly sweeps: readonly UpwardSweep[];
  readonly joined: SiteMasses;
  readonly trunks: readonly TrunkMasses[];
  /** By trunk: the same with something that does. */
  readonly passing: readonly PassingSweeps[];
}

/** Over all contexts: what is out of the question for what stays may not be so for what comes and goes. */
export function sweepSittings(site: SiteModel): SweptSittings {
  const sweeps = site.trunks.map(sweepUp);
  const joined = joinTrunks(
    site,
    sweeps.map((sweep) => sweep.port.logEvidence),
  );
  const live = allContexts(site.headEnd.count);
  const trunks = sweeps.map((sweep, t) =>
    sweepDown(sweep, joined.logWeights[t] ?? new Float64Array(), live),
  );
  const passing = sweeps.map((sweep) => new PassingSweeps(sweep, site.headEnd));
  return { site, sweeps, joined, trunks, passing };
}

/** All is well at every point, in the sitting in which it was complained of. */
function certainlyGood(heard: readonly StatementsOfOne[]): StatementsOfOne[] {
  const items = heard
    .flatMap((ofOne) => ofOne.items)
    .filter(({ isComplaint }) => isComplaint)
    .map((statement) => ({ ...statement, likelihood: [1, 0, 0] as const, observation: -1 }));
  if (items.length === 0) return [...heard];
  return [...heard, { items, confused: 0, ifConfused: 0, flag: -1 }];
}

/** The site with that taken for certain; null where nothing was complained of. */
export function quietSittings(site: SiteModel): SiteModel | null {
  if (site.trunks.every(({ points }) => points.every((functions) => functions === 0))) return null;
  const trunks = site.trunks.map((trunk) => {
    const statements = trunk.statements.map(certainlyGood);
    const model = { ...trunk, statements };
    return { ...model, likelihood: trunkLikelihood(model, site.headEnd) };
  });
  return { ...site, trunks };
}
