import { type LiveContexts, liveContexts } from './live-contexts.js';
import { joinTrunks, type SiteMasses, type SiteModel } from './site.js';
import {
  sweepDown,
  sweepUp,
  sweepUpAgain,
  type TrunkMasses,
  type UpwardSweep,
} from './sweep-trunk.js';
import type { TrunkTables } from './trunk-tables.js';

/** A site with both sweeps of every trunk done. */
export interface SweptSite {
  readonly site: SiteModel;
  readonly sweeps: readonly UpwardSweep[];
  readonly masses: SiteMasses;
  readonly live: LiveContexts;
  readonly trunks: readonly TrunkMasses[];
}

/** Up, over the head-end, and down again; null where the evidence has probability 0. */
export function sweepSite(
  site: SiteModel,
  wanted: {
    /** As sweepDown takes it. */
    readonly isAskedFor?: (trunk: number, node: number) => boolean;
    readonly stationsAlone?: boolean;
  } = {},
): SweptSite | null {
  const sweeps = site.trunks.map(sweepUp);
  const masses = joinTrunks(
    site,
    sweeps.map((sweep) => sweep.port.logEvidence),
  );
  if (masses.logEvidence === -Infinity) return null;
  const live = liveContexts(masses.groups);
  const { isAskedFor = () => false, stationsAlone } = wanted;
  const trunks = sweeps.map((sweep, t) =>
    sweepDown(sweep, masses.logWeights[t] ?? new Float64Array(), live, {
      isAskedFor: (n) => isAskedFor(t, n),
      stationsAlone,
    }),
  );
  return { site, sweeps, masses, live, trunks };
}

/** What stands at the stations of a site that somebody wanted; trunks without any are left out. */
export interface SweptStations {
  readonly site: SiteModel;
  readonly masses: SiteMasses;
  readonly live: LiveContexts;
  readonly trunks: readonly (TrunkMasses | undefined)[];
}

/**
 * The same site once something else is known at some stations or of the head-end: only what that changes on the way up is
 * swept again, and only what leads to the stations that are wanted on the way down. Null where that has probability 0.
 *
 * @param ways by trunk and node, 1 at stations that are wanted and at all that feeds them
 * @param spare by trunk, tables for the way up: filled by the first such sweep, and used again by those after it
 */
export function sweepSiteAgain(
  before: SweptSite,
  site: SiteModel,
  ways: ReadonlyMap<number, Uint8Array>,
  spare: Map<number, TrunkTables>,
): SweptStations | null {
  const sweeps = before.sweeps.map((sweep, t) => {
    const model = site.trunks[t];
    if (model === undefined || model === sweep.model) return sweep;
    const again = sweepUpAgain(sweep, model, spare.get(t));
    spare.set(t, again.tables);
    return again;
  });
  const masses = joinTrunks(
    site,
    sweeps.map((sweep) => sweep.port.logEvidence),
  );
  if (masses.logEvidence === -Infinity) return null;
  const live = liveContexts(masses.groups);
  const trunks = sweeps.map((sweep, t) => {
    const wanted = ways.get(t);
    if (wanted === undefined) return undefined;
    // They are added up, and those of the sweep before are done with.
    sweep.tables.down.fill(0);
    const weights = masses.logWeights[t] ?? new Float64Array();
    return sweepDown(sweep, weights, live, { stationsAlone: true, ways: wanted });
  });
  return { site, masses, live, trunks };
}

/** Natural logarithm of P(evidence) alone: the way up only. */
export function logEvidenceOf(site: SiteModel): number {
  return logSweptMass(site) + site.logSeen;
}

/** The same but for SiteModel.logSeen. */
export function logSweptMass(site: SiteModel): number {
  const evidence = site.trunks.map((trunk) => sweepUp(trunk).port.logEvidence);
  return joinTrunks(site, evidence).logEvidence;
}
