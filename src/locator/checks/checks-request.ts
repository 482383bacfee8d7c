import type { ErrorRates } from '../../plan/error-rates.js';
import type { ExpectedFaults } from '../../plan/expected-faults.js';
import type { LocateRequest } from '../request/locate-request.js';
import type { LookedAt } from './check-action.js';
import type { CheckMinutes } from './check-minutes.js';

/** What is known of a site, and of what was looked at already. */
export interface ChecksRequest {
  request: LocateRequest;
  /** As `locate` takes them. */
  errors?: ErrorRates;
  expected?: ExpectedFaults;
  lookedAt?: LookedAt;
  minutes?: CheckMinutes;
}

/** A check that is expected to tell less than this, in bits, is not worth anybody's while. */
export const LEAST_BITS = 0.05;
