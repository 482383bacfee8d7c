import {
  type ErrorRates,
  type ExpectedFaults,
  type Intermittent,
  intermittent,
  type LocateRequest,
} from '../locator/index.js';
import { type Evidence, lastTroubled } from './evidence.js';

/** What may come and go; null where all evidence was of one time. */
export function comesAndGoes(
  { inSittings }: Evidence,
  { looks, falseAlarmRatio, exposureDays }: LocateRequest,
  { errors, expected }: { errors: ErrorRates; expected: ExpectedFaults },
): Intermittent | null {
  if (inSittings === null) return null;
  const besides = { ...(looks && { looks }), ...(falseAlarmRatio && { falseAlarmRatio }) };
  return intermittent({ ...inSittings, ...besides, exposureDays }, errors, expected);
}

/** What to do next is worked out from this, where something comes and goes. */
export interface WhileItFails {
  /** What was said of the last time that something failed, and nothing of other times. */
  said: Pick<LocateRequest, 'observations' | 'unmentioned'>;
  /** Nothing failed when it was last tried: what is tried now tells nothing of where the trouble is. */
  isQuiet: boolean;
}

/** From here on it comes and goes rather than stays. */
const LIKELIER_THAN_NOT = 0.5;

/**
 * Stations times two for each sitting: what is weighed takes so much, a second at this bound where every room was told of each time, and
 * whoever reports and a phone wait for it (decision 0144).
 */
const MOST_WEIGHED = 8000;

/**
 * What stays as it is cannot have worked in between: of all times together it explains nothing, and sends people from room to room
 * (decision 0143). Null where nothing is likely to come and go, and where to find that out takes too long.
 *
 * @param weigh what may come and go: asked for only where it does not take too long
 */
export function whileItFails(
  evidence: Evidence,
  weigh: () => Intermittent | null,
): WhileItFails | null {
  if (evidence.inSittings === null) return null;
  const stations = evidence.request.trunks.reduce((sum, { nodes }) => sum + nodes.length, 0);
  const sittings = new Set(evidence.inSittings.observations.map(({ sitting }) => sitting)).size;
  if (stations * 2 ** sittings > MOST_WEIGHED) return null;
  const passing = weigh();
  if (passing === null || passing.nothing > 1 - LIKELIER_THAN_NOT) return null;
  const { request, used } = lastTroubled(evidence);
  if (used.length === 0) return null;
  const { observations, unmentioned } = request;
  const last = evidence.used.at(-1);
  const isQuiet = last !== undefined && !used.includes(last);
  return { said: { observations, unmentioned }, isQuiet };
}
