import type { ErrorRates } from '../../plan/error-rates.js';
import type { ExpectedFaults } from '../../plan/expected-faults.js';
import type { WeighedTroubles } from '../causes/weigh-troubles.js';
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
  /** What `locate` found of the request. */
  known?: WeighedTroubles;
}

/** A check that is expected to tell less than this, in bits, is not worth anybody's while. */
export const LEAST_BITS = 0.05;

/** How many checks have their outcomes tried: each outcome sweeps the site. */
export interface Tries {
  /** At most; the model allows 64. */
  most: number;
  /** Nodes that all tries together sweep once for each outcome. Past them the site has fewer tries, past that none. */
  nodes: number;
}

const USUAL_TRIES: Tries = { most: 24, nodes: 480 };

/** Of a site of so many nodes. */
export function triedOver(nodes: number, tries = USUAL_TRIES): number {
  return Math.min(tries.most, Math.floor(tries.nodes / nodes));
}

/** Of the checks of a ticket. */
export function mostTried({ request }: ChecksRequest): number {
  return triedOver(request.trunks.reduce((sum, trunk) => sum + trunk.nodes.length, 0));
}
