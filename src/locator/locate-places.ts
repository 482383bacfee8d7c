import { drawingAnswer, type Redrawn } from './alternatives/alternatives.js';
import { DRAWING_DOUBT } from './alternatives/other-drawings.js';
import { pointsOf } from './causes/point.js';
import type { Trouble } from './causes/trouble-answer.js';
import { type WeighedTroubles, weighTroubles } from './causes/weigh-troubles.js';
import type { LocateResult } from './posterior/locate-result.js';
import { placeChances } from './posterior/place-chances.js';
import { mixPosteriors, posteriorOf } from './posterior/posterior.js';
import { stationAnswers } from './posterior/station-answers.js';
import { stretches } from './explain/stretches.js';
import { againstTheRest } from './surprise/against-the-rest.js';
import { impossibleEvidence } from './impossible-evidence.js';
import { resistiveJoints } from './readings/resistive-joints.js';
import { DEFAULT_PLAN } from '../plan/default-plan.js';
import type { ErrorRates } from '../plan/error-rates.js';
import type { ExpectedFaults } from '../plan/expected-faults.js';
import type { Plan } from '../plan/plan.js';
import { checkExpectedFaults } from './request/check-expected-faults.js';
import type { LocateRequest } from './request/locate-request.js';
import { readRequest } from './request/read-request.js';
import { withoutIdentities } from './sweep/identities.js';
import { siteModel } from './sweep/site.js';

/** What is located, and from what. */
export interface LocatedPlaces {
  checked: LocateRequest;
  result: LocateResult;
  known: WeighedTroubles;
}

/**
 * `locate` without explanations, and with functions by what they tell of themselves for its checks: a page that needs neither
 * is not sent what works them out, a quarter of all.
 *
 * @throws what `locate` throws
 */
export function locatePlaces(
  request: unknown,
  errors?: ErrorRates,
  expected?: ExpectedFaults,
  plan: Plan = DEFAULT_PLAN,
): LocatedPlaces {
  const checked = readRequest(request, plan);
  if (expected) checkExpectedFaults(expected, checked);
  const site = siteModel(checked, errors, expected, { onlyInQuestion: true });
  const points = pointsOf(checked, site);
  const known = weighTroubles(site, points);
  if (known === null) throw impossibleEvidence(checked, errors, expected);
  const { weighed, accounts } = known;
  const { swept, quiet, quietness } = weighed;
  const { masses, sweeps } = swept;
  const whole = posteriorOf(swept);
  const posterior = quiet ? mixPosteriors(quietness, whole, posteriorOf(quiet)) : whole;
  const joints = resistiveJoints(
    checked,
    site,
    sweeps.map((sweep) => sweep.port.logEvidence),
    masses.logEvidence,
  );
  const inSteps = site.trunks.filter(({ labels }) => labels?.isInSteps).map(({ tree }) => tree.id);
  const result = {
    logEvidence: masses.logEvidence + site.logSeen + quietness.logFactor,
    quiet: quietness.quiet,
    troubles: [...known.troubles],
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
    ...(site.identitiesDropped.length > 0 && { identitiesDropped: [...site.identitiesDropped] }),
    ...(inSteps.length > 0 && { shortsInSteps: inSteps }),
    ...(joints.length > 0 && { resistiveJoints: joints }),
  };
  return { checked, result, known };
}

/** The causes of every point were the site drawn so. */
function troublesUnder({ request, expected }: Redrawn, errors?: ErrorRates): Trouble[] {
  const site = siteModel(request, errors, expected, { onlyInQuestion: true });
  return [...(weighTroubles(site, pointsOf(request, site))?.troubles ?? [])];
}
