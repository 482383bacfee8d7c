import { drawingAnswer, type Redrawn } from './alternatives/alternatives.js';
import type { ChecksRequest } from './checks/checks-request.js';
import { checksAboutCauses } from './checks/told-checks.js';
import { DRAWING_DOUBT } from './alternatives/other-drawings.js';
import { pointsOf } from './causes/point.js';
import type { Trouble } from './causes/trouble-answer.js';
import { troublesOf } from './causes/troubles.js';
import type { LocateResult } from './posterior/locate-result.js';
import { placeChances } from './posterior/place-chances.js';
import { mixPosteriors, posteriorOf } from './posterior/posterior.js';
import { weighEvidence } from './posterior/weigh-evidence.js';
import { stationAnswers } from './posterior/station-answers.js';
import { explain } from './explain/explain.js';
import { stretches } from './explain/stretches.js';
import { againstTheRest } from './surprise/against-the-rest.js';
import { impossibleEvidence } from './impossible-evidence.js';
import { resistiveJoints } from './readings/resistive-joints.js';
import { DEFAULT_PLAN } from '../plan/default-plan.js';
import type { ErrorRates } from '../plan/error-rates.js';
import type { ExpectedFaults } from '../plan/expected-faults.js';
import type { Plan } from '../plan/plan.js';
import { checkExpectedFaults } from './request/check-expected-faults.js';
import { DEFAULT_EXPLANATIONS } from './request/limits.js';
import { readRequest } from './request/read-request.js';
import { withoutIdentities } from './sweep/identities.js';
import { siteModel } from './sweep/site.js';

/**
 * Where the fault is likely to be: the exact posterior over all combinations of faults (fault model, sections 1 to 6),
 * in time linear in the nodes.
 *
 * @param request a LocateRequest, or anything that claims to be one
 * @param errors P(outcome | condition) of the informants, where a firm has its own record
 * @param expected the faults to be expected of each component, where a site has its own record; it stands in for the
 *   request's rates and exposure
 * @param plan the kind of system; names in the request, the rates and what is expected are its own
 * @throws InvalidPlan
 * @throws InvalidLocateRequest naming everything wrong with the request
 * @throws ImpossibleEvidence when the evidence has probability 0
 */
export function locate(
  request: unknown,
  errors?: ErrorRates,
  expected?: ExpectedFaults,
  plan: Plan = DEFAULT_PLAN,
): LocateResult {
  const checked = readRequest(request, plan);
  if (expected) checkExpectedFaults(expected, checked);
  const site = siteModel(checked, errors, expected, { onlyInQuestion: true });
  const points = pointsOf(checked, site);
  const weighed = weighEvidence(site, points);
  if (weighed === null) throw impossibleEvidence(checked, errors, expected);
  const { swept, quiet, quietness } = weighed;
  const { masses, sweeps } = swept;
  const whole = posteriorOf(swept);
  const posterior = quiet ? mixPosteriors(quietness, whole, posteriorOf(quiet)) : whole;
  const { explanations = DEFAULT_EXPLANATIONS } = checked;
  const joints = resistiveJoints(
    checked,
    site,
    sweeps.map((sweep) => sweep.port.logEvidence),
    masses.logEvidence,
  );
  const { troubles, accounts } = troublesOf(swept, points, quietness.mixing);
  return {
    logEvidence: masses.logEvidence + site.logSeen + quietness.logFactor,
    quiet: quietness.quiet,
    troubles,
    drawing: drawingAnswer({
      request: withoutIdentities(checked, site.identitiesDropped),
      expected,
      errors,
      doubtOf: () => DRAWING_DOUBT,
      weighed,
      troublesUnder: (redrawn) => troublesUnder(redrawn, errors),
    }),
    againstTheRest: againstTheRest(swept, quiet, quietness.mix),
    places: placeChances(site, posterior, accounts),
    stretches: stretches(swept, quiet, quietness),
    ...stationAnswers(
      site,
      posterior.stations,
      (errors ?? site.system.plan.plan.errors).technician,
    ),
    ...weighedChecks({ request: checked, errors, expected }),
    ...(explanations > 0 ? explain(swept, quietness.logFactor, explanations) : {}),
    ...(site.identitiesDropped.length > 0 && { identitiesDropped: [...site.identitiesDropped] }),
    ...(joints.length > 0 && { resistiveJoints: joints }),
  };
}

/** In the place of those by condition, where some were asked for. */
function weighedChecks(
  asked: Pick<ChecksRequest, 'request' | 'errors' | 'expected'>,
): Partial<Pick<LocateResult, 'checks' | 'checksLeftOut'>> {
  const { checks: most = 0 } = asked.request;
  if (most === 0) return {};
  const checks = checksAboutCauses(asked, most);
  return checks === null ? { checks: [], checksLeftOut: true } : { checks };
}

/** The causes of every point were the site drawn so. */
function troublesUnder({ request, expected }: Redrawn, errors?: ErrorRates): Trouble[] {
  const site = siteModel(request, errors, expected, { onlyInQuestion: true });
  const points = pointsOf(request, site);
  const weighed = weighEvidence(site, points);
  return weighed ? troublesOf(weighed.swept, points, weighed.quietness.mixing).troubles : [];
}
