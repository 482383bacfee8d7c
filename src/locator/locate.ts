import type { ChecksRequest } from './checks/checks-request.js';
import { checksAboutCauses } from './checks/told-checks.js';
import type { WeighedTroubles } from './causes/weigh-troubles.js';
import type { LocateResult } from './posterior/locate-result.js';
import { explain } from './explain/explain.js';
import { locatePlaces } from './locate-places.js';
import { DEFAULT_PLAN } from '../plan/default-plan.js';
import type { ErrorRates } from '../plan/error-rates.js';
import type { ExpectedFaults } from '../plan/expected-faults.js';
import type { Plan } from '../plan/plan.js';
import { DEFAULT_EXPLANATIONS } from './request/limits.js';

/**
 * Where the fault is likely to be: the exact posterior over all combinations of faults (fault model, sections 1 to 6),
 * in time linear in the nodes.
 *
 * @param request a LocateRequest, or anything that claims to be one
 * @param errors P(outcome | condition) of the informants, where a firm has its own record
 * @param expected the faults to be expected of each component, where a site has its own record; it stands in for the
 *   request's rates and exposure
 * @param plan the kind of system; names in the request, the rates and what is expected are its own
 * @throws InvalidPlan also where `errors` are no chances, or a row of theirs does not add up to 1
 * @throws InvalidLocateRequest naming everything wrong with the request
 * @throws ImpossibleEvidence when the evidence has probability 0
 */
export function locate(
  request: unknown,
  errors?: ErrorRates,
  expected?: ExpectedFaults,
  plan: Plan = DEFAULT_PLAN,
): LocateResult {
  return locateAndKeep(request, errors, expected, plan).result;
}

/** The same with what it was worked out from: checks of the request need not work that out again. */
export function locateAndKeep(
  request: unknown,
  errors?: ErrorRates,
  expected?: ExpectedFaults,
  plan: Plan = DEFAULT_PLAN,
): { result: LocateResult; known: WeighedTroubles } {
  const { checked, result, known } = locatePlaces(request, errors, expected, plan);
  const { swept, quietness } = known.weighed;
  const { explanations = DEFAULT_EXPLANATIONS } = checked;
  const { identitiesDropped, shortsInSteps, resistiveJoints: joints, ...places } = result;
  const whole = {
    ...places,
    ...weighedChecks({ request: checked, errors, expected }),
    ...(explanations > 0 ? explain(swept, quietness.logFactor, explanations) : {}),
    ...(identitiesDropped && { identitiesDropped }),
    ...(shortsInSteps && { shortsInSteps }),
    ...(joints && { resistiveJoints: joints }),
  };
  return { result: whole, known };
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
