import { pointsOf, waysTo } from './causes/point.js';
import { troublesOf } from './causes/troubles.js';
import type { LocateResult } from './posterior/locate-result.js';
import { placeChances } from './posterior/place-chances.js';
import { mixPosteriors, posteriorOf } from './posterior/posterior.js';
import { quietness } from './posterior/quietness.js';
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
import { hasPoints, quietSite } from './sweep/quiet-site.js';
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
  const { masses, sweeps } = swept;
  const whole = posteriorOf(swept);
  const quiet = hasPoints(site) ? sweepSite(quietSite(site)) : null;
  const quietShare = quietness(
    hasPoints(site) ? (quiet?.masses.logEvidence ?? -Infinity) : masses.logEvidence,
    masses.logEvidence,
    hasPoints(site) ? site.falseAlarmRatio : 1,
  );
  const posterior = quiet ? mixPosteriors(quietShare, whole, posteriorOf(quiet)) : whole;
  const { explanations = DEFAULT_EXPLANATIONS } = checked;
  const joints = resistiveJoints(
    checked,
    site,
    sweeps.map((sweep) => sweep.port.logEvidence),
    masses.logEvidence,
  );
  const { troubles, accounts } = troublesOf(swept, points, quietShare.mixing);
  return {
    logEvidence: masses.logEvidence + site.logSeen + quietShare.logFactor,
    quiet: quietShare.quiet,
    troubles,
    againstTheRest: againstTheRest(swept, quiet, quietShare.mix),
    places: placeChances(site, posterior, accounts),
    stretches: stretches(swept, quiet, quietShare),
    ...stationAnswers(site, posterior.stations),
    ...(explanations > 0 ? explain(site, sweeps, masses, explanations) : {}),
    ...(site.identitiesDropped.length > 0 && { identitiesDropped: [...site.identitiesDropped] }),
    ...(joints.length > 0 && { resistiveJoints: joints }),
  };
}
