import { type LiveContexts, liveContexts } from './live-contexts.js';
import { joinTrunks, type SiteMasses, type SiteModel } from './site.js';
import {
  sweepDown,
  sweepUp,
  sweepUpAgain,
  type SweptAgain,
  type TrunkMasses,
  type UpwardSweep,
} from './sweep-trunk.js';

/** A site with both sweeps of every trunk done. */
export interface SweptSite {
  readonly site: SiteModel;
  readonly sweeps: readonly UpwardSweep[];
  readonly masses: SiteMasses;
  readonly live: LiveContexts;
  readonly trunks: readonly TrunkMasses[];
}

/** A site with the way up of every trunk done, and over the head-end. */
export type SweptUp = Pick<SweptSite, 'site' | 'sweeps' | 'masses'>;

/** Null where the evidence has probability 0. */
export function sweepSiteUp(site: SiteModel): SweptUp | null {
  const sweeps = site.trunks.map(sweepUp);
  const masses = joinTrunks(
    site,
    sweeps.map((sweep) => sweep.port.logEvidence),
  );
  return masses.logEvidence === -Infinity ? null : { site, sweeps, masses };
}

/** What of a site's masses is wanted. */
interface Wanted {
  /** As sweepDown takes it. */
  readonly isAskedFor?: (trunk: number, node: number) => boolean;
  readonly stationsAlone?: boolean;
}

export function sweepSiteDown(
  { site, sweeps, masses }: SweptUp,
  { isAskedFor = () => false, stationsAlone }: Wanted = {},
): SweptSite {
  const live = liveContexts(masses.groups);
  const trunks = sweeps.map((sweep, t) =>
    sweepDown(sweep, masses.logWeights[t] ?? new Float64Array(), live, {
      isAskedFor: (n) => isAskedFor(t, n),
      stationsAlone,
    }),
  );
  return { site, sweeps, masses, live, trunks };
}

/** Up, over the head-end, and down again; null where the evidence has probability 0. */
export function sweepSite(site: SiteModel, wanted: Wanted = {}): SweptSite | null {
  const up = sweepSiteUp(site);
  return up && sweepSiteDown(up, wanted);
}

/** A site of which the way down was done where somebody wanted it; trunks without any of that are left out. */
export interface SweptStations {
  readonly site: SiteModel;
  readonly sweeps: readonly UpwardSweep[];
  readonly masses: SiteMasses;
  readonly live: LiveContexts;
  readonly trunks: readonly (TrunkMasses | undefined)[];
}

/** By trunk the sweep that was done again last: the next one uses its tables. */
export type SpareSweeps = Map<number, SweptAgain>;

/** The same site once something else is known of some stations and spans: what that changes on the way up is swept again. */
function sweepUpSiteAgain(
  before: Pick<SweptSite, 'sweeps'>,
  site: SiteModel,
  spare: SpareSweeps,
): { sweeps: UpwardSweep[]; masses: SiteMasses } {
  const sweeps = before.sweeps.map((sweep, t) => {
    const model = site.trunks[t];
    if (model === undefined || model === sweep.model) return sweep;
    const again = sweepUpAgain(sweep, model, spare.get(t));
    spare.set(t, again);
    return again;
  });
  const masses = joinTrunks(
    site,
    sweeps.map((sweep) => sweep.port.logEvidence),
  );
  return { sweeps, masses };
}

/** As logSweptMass, of the same site once something else is known. */
export function logSweptMassAgain(
  before: Pick<SweptSite, 'sweeps'>,
  site: SiteModel,
  spare: SpareSweeps,
): number {
  return sweepUpSiteAgain(before, site, spare).masses.logEvidence;
}

/**
 * The same site once something else is known at some stations, of some spans or of the head-end: only what that changes on
 * the way up is swept again, and only what leads to the nodes that are wanted on the way down. Null where that has
 * probability 0.
 *
 * @param ways by trunk and node, 1 at nodes that are wanted and at all that feeds them
 * @param isAlongWanted whether the messages inside the spans on these ways are wanted too
 */
export function sweepSiteAgain(
  before: SweptSite,
  site: SiteModel,
  ways: ReadonlyMap<number, Uint8Array>,
  spare: SpareSweeps,
  isAlongWanted = false,
): SweptStations | null {
  const { sweeps, masses } = sweepUpSiteAgain(before, site, spare);
  if (masses.logEvidence === -Infinity) return null;
  const live = liveContexts(masses.groups);
  const trunks = sweeps.map((sweep, t) => {
    const wanted = ways.get(t);
    if (wanted === undefined) return undefined;
    // They are added up, and those of the sweep before are done with.
    sweep.tables.down.fill(0);
    const weights = masses.logWeights[t] ?? new Float64Array();
    const isAskedFor = (n: number) => isAlongWanted && wanted[n] === 1;
    return sweepDown(sweep, weights, live, { isAskedFor, stationsAlone: true, ways: wanted });
  });
  return { site, sweeps, masses, live, trunks };
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
