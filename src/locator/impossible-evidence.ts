import type { ErrorRates } from '../plan/error-rates.js';
import type { ExpectedFaults } from '../plan/expected-faults.js';
import { ImpossibleEvidence } from './request/errors.js';
import type { LocateRequest } from './request/locate-request.js';
import { siteModel } from './sweep/site.js';
import { logEvidenceOf } from './sweep/sweep-site.js';

function isPossible(
  request: LocateRequest,
  errors?: ErrorRates,
  expected?: ExpectedFaults,
): boolean {
  return logEvidenceOf(siteModel(request, errors, expected)) > -Infinity;
}

/**
 * The error for evidence of probability 0: leaves out one observation after another as long as the rest stays
 * impossible. What is left over cannot be true together, and would be possible without any one of it. Readings are never
 * among it: each has its flat share, or its chance of being said wrongly, so that none can make anything impossible.
 */
export function impossibleEvidence(
  request: LocateRequest,
  errors?: ErrorRates,
  expected?: ExpectedFaults,
): ImpossibleEvidence {
  const all = request.observations ?? [];
  const observed = { ...request, readings: [] };
  let kept = all.map((_, o) => o);
  for (const o of kept) {
    const without = kept.filter((other) => other !== o);
    const observations = all.filter((_, other) => without.includes(other));
    if (!isPossible({ ...observed, observations }, errors, expected)) kept = without;
  }
  const named = kept.map((o) => ({
    pointer: `/observations/${o}`,
    reason: 'cannot be true together with the other observations named',
  }));
  return new ImpossibleEvidence(
    named.length > 0
      ? named
      : [{ pointer: '/unmentioned', reason: 'says that something works which cannot work' }],
  );
}
