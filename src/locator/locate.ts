import { pointsOf, waysTo } from './causes/point.js';
import { troublesOf } from './causes/troubles.js';
import { stationPosterior } from './posterior/conditions.js';
import type { LocateResult } from './posterior/locate-result.js';
import { placeChances } from './posterior/place-chances.js';
import { stationAnswers } from './posterior/station-answers.js';
import { explain } from './explain/explain.js';
import { stretches } from './explain/stretches.js';
import { againstTheRest } from './surprise/against-the-rest.js';
import { impossibleEvidence } from './impossible-evidence.js';
import { resistiveJoints } from './readings/resistive-joints.js';
import { DEFAULT_ERROR_RATES, type ErrorRates } from '../plan/error-rates.js';
import type { ExpectedFaults } from '../plan/expected-faults.js';
import { checkExpectedFaults } from './request/check-expected-faults.js';
import { DEFAULT_EXPLANATIONS } from './request/limits.js';
import { readRequest } from './request/read-request.js';
import { siteModel } from './sweep/site.js';
import { sweepSite } from './sweep/sweep-site.js';

/**
 * Where the fault is likely to be: the exact posterior over all combinations of faults (fault model, sections 1 to 6),
 * in time linear in the nodes.
 *
 * @param request a LocateRequest, or anything that claims to be one
 * @param errors P(outcome | condition) of the informants, where a firm has its own record
 * @param expected the faults to be expected of each component, where a site has its own record; it stands in for the
 *   request's rates and exposure
 * @throws InvalidLocateRequest naming everything wrong with the request
 * @throws ImpossibleEvidence when the evidence has probability 0
 */
export function locate(
  request: unknown,
  errors: ErrorRates = DEFAULT_ERROR_RATES,
  expected?: ExpectedFaults,
): LocateResult {
  const checked = readRequest(request);
  if (expected) checkExpectedFaults(expected, checked);
  const site = siteModel(checked, errors, expected, { onlyInQuestion: true });
  const points = pointsOf(checked, site);
  const ways = waysTo(points, site);
  const swept = sweepSite(site, (trunk, node) => ways[trunk]?.[node] === 1);
  if (swept === null) throw impossibleEvidence(checked, errors, expected);
  const { masses, sweeps, live, trunks } = swept;
  const stations = site.trunks.map((trunk, t) =>
    trunk.station.map((station, n) => {
      const found = trunks[t];
      const slot = sweeps[t]?.tables.nodes[n];
      if (!station || !found || !slot) return null;
      const seen = trunk.likelihood[n]?.table ?? null;
      return stationPosterior(station, seen, found, slot, live(slot.contexts), site.headEnd);
    }),
  );
  const { explanations = DEFAULT_EXPLANATIONS } = checked;
  const joints = resistiveJoints(
    checked,
    site,
    sweeps.map((sweep) => sweep.port.logEvidence),
    masses.logEvidence,
  );
  const { troubles, accounts } = troublesOf(swept, points, { weight: 1, quiet: 0 });
  return {
    logEvidence: masses.logEvidence,
    troubles,
    againstTheRest: againstTheRest(swept, null, (all) => all),
    places: placeChances(site, masses, trunks, stations, accounts),
    stretches: stretches(swept),
    ...stationAnswers(site, stations),
    ...(explanations > 0 ? explain(site, sweeps, masses, explanations) : {}),
    ...(site.identitiesDropped.length > 0 && { identitiesDropped: [...site.identitiesDropped] }),
    ...(joints.length > 0 && { resistiveJoints: joints }),
  };
}
