import type { ErrorRates } from '../../plan/error-rates.js';
import type { ExpectedFaults } from '../../plan/expected-faults.js';
import type { LocateRequest } from '../request/locate-request.js';
import { siteModel } from '../sweep/site.js';
import { type SiteWithin, siteWithin } from '../sweep/site-within.js';
import { sweepUp, type UpwardSweep } from '../sweep/sweep-trunk.js';

/** Tables of a site times how often it may be swept: some seconds. */
const MOST_TABLES = 1_500_000;

interface JudgedSite extends SiteWithin {
  sweeps: UpwardSweep[];
}

/** The site that evidence is judged by, with as many callers as somebody as it can be swept `times` with. */
export function judgedSite(
  request: LocateRequest,
  times: number,
  errors?: ErrorRates,
  expected?: ExpectedFaults,
): JudgedSite {
  // What was seen is taken for known: chances are drawn from what it leaves.
  const posed = { ...request, looks: [] };
  const within = siteWithin(MOST_TABLES / times, posed, (one) => siteModel(one, errors, expected));
  return { ...within, sweeps: within.site.trunks.map(sweepUp) };
}
