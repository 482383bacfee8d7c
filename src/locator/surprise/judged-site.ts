import { compareIds } from '../../drawing/drawn-tree.js';
import type { ErrorRates } from '../../plan/error-rates.js';
import type { ExpectedFaults } from '../../plan/expected-faults.js';
import type { LocateRequest } from '../request/locate-request.js';
import { withoutIdentities } from '../sweep/identities.js';
import { contextCount } from '../sweep/contexts.js';
import { siteModel, type SiteModel } from '../sweep/site.js';
import type { ConfusionFlag } from '../sweep/statements.js';
import { sweepUp, type UpwardSweep } from '../sweep/sweep-trunk.js';
import type { TrunkModel } from '../sweep/trunk-model.js';

/** Tables of a site times how often it is swept: some seconds. */
const MOST_TABLES = 1_500_000;

export interface JudgedSite {
  site: SiteModel;
  sweeps: UpwardSweep[];
  /** Ids of callers whose words count as anybody's, or they would be too many. */
  identitiesDropped: string[];
}

/**
 * The site that evidence is judged by, with as many callers as somebody as it can be swept `times` with: each doubles the
 * tables where they told of several rooms. Those with the fewest words go first.
 */
export function judgedSite(
  request: LocateRequest,
  times: number,
  errors?: ErrorRates,
  expected?: ExpectedFaults,
): JudgedSite {
  const dropped: string[] = [];
  for (;;) {
    // What was seen is taken for known: chances are drawn from what it leaves.
    const posed = { ...withoutIdentities(request, dropped), looks: [] };
    const site = siteModel(posed, errors, expected);
    if (site.flags.length === 0 || tablesOf(site) * times <= MOST_TABLES) {
      const identitiesDropped = [...dropped, ...site.identitiesDropped];
      return { site, sweeps: site.trunks.map(sweepUp), identitiesDropped };
    }
    dropped.push(...site.identitiesDropped, ...lessSaid(site.flags));
  }
}

function tablesOf({ trunks }: SiteModel): number {
  const contexts = ({ plan: { groups, nodeFlags } }: TrunkModel) =>
    nodeFlags.reduce((sum, flags) => sum + contextCount(groups, flags), 0);
  return trunks.reduce((sum, trunk) => sum + contexts(trunk), 0);
}

/** The half of the callers with the fewest words, of equals those with the later ids. */
function lessSaid(flags: readonly ConfusionFlag[]): string[] {
  return flags
    .toSorted((a, b) => b.words - a.words || compareIds(a.id, b.id))
    .slice(Math.floor(flags.length / 2))
    .map(({ id }) => id);
}
