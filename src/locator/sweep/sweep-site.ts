import { type LiveContexts, liveContexts } from './live-contexts.js';
import { joinTrunks, type SiteMasses, type SiteModel } from './site.js';
import { sweepDown, sweepUp, type TrunkMasses, type UpwardSweep } from './sweep-trunk.js';

/** A site with both sweeps of every trunk done. */
export interface SweptSite {
  readonly site: SiteModel;
  readonly sweeps: readonly UpwardSweep[];
  readonly masses: SiteMasses;
  readonly live: LiveContexts;
  readonly trunks: readonly TrunkMasses[];
}

/**
 * Up, over the head-end, and down again; null where the evidence has probability 0. The messages inside the spans into
 * the nodes that are asked for are kept.
 */
export function sweepSite(
  site: SiteModel,
  isAskedFor: (trunk: number, node: number) => boolean = () => false,
): SweptSite | null {
  const sweeps = site.trunks.map(sweepUp);
  const masses = joinTrunks(
    site,
    sweeps.map((sweep) => sweep.port.logEvidence),
  );
  if (masses.logEvidence === -Infinity) return null;
  const live = liveContexts(masses.groups);
  const trunks = sweeps.map((sweep, t) =>
    sweepDown(sweep, masses.logWeights[t] ?? new Float64Array(), live, (n) => isAskedFor(t, n)),
  );
  return { site, sweeps, masses, live, trunks };
}

/** Natural logarithm of P(evidence) alone: the way up only. */
export function logEvidenceOf(site: SiteModel): number {
  const evidence = site.trunks.map((trunk) => sweepUp(trunk).port.logEvidence);
  return joinTrunks(site, evidence).logEvidence + site.logSeen;
}
