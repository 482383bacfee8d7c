import type { ErrorRates } from '../../plan/error-rates.js';
import type { ExpectedFaults } from '../../plan/expected-faults.js';
import type { LocateRequest, RequestObservation } from '../request/locate-request.js';
import { joinTrunks } from '../sweep/site.js';
import { logSweptMassAgain, type SpareSweeps } from '../sweep/sweep-site.js';
import type { Random } from './draw-conditions.js';
import { type DrawnEvidence, drawEvidence } from './draw-evidence.js';
import { judgedSite } from './judged-site.js';
import { leaveOneOut, type SurprisingObservation } from './leave-one-out.js';

/** Evidence is surprising in the lowest hundredth (fault model, section 5). */
const LEVEL = 0.01;
/** With the evidence itself they make 300: the hundredth is then exactly the lowest 3. */
const SIMULATIONS = 299;
/** So many simulated as unlikely as the evidence, and it cannot be in the lowest hundredth any more. */
const ENOUGH = Math.floor(LEVEL * (SIMULATIONS + 1));
/** Sites drawn at most: most of them may have nothing to report. */
const MOST_DRAWS = 100_000;
/** Numbers this near are equal: sums done in another order must not decide. */
const ROUNDING = 1e-9;
/** What is at least so much likelier need not be summed. */
const SURELY = 1e-6;

export interface Surprise {
  /** The evidence is in the lowest hundredth of what the model makes likely for this site. */
  drawingMayBeWrong: boolean;
  /** Share of the simulated evidence that was as unlikely as this or more. */
  share: number;
  simulated: number;
  /** Ids of informants who are judged as anybody, or they would be too many. */
  identitiesDropped?: string[];
  /** The most surprising first; empty unless the drawing may be wrong. */
  mostSurprising: SurprisingObservation[];
}

/**
 * Whether the evidence is too unlikely under the model for the drawing to be believed: log P(evidence) against that of
 * the same questions put to sites drawn from the model, given that something told does not work (docs/decisions/0026).
 * Simulating ends as soon as the answer is no. `random` is uniform on [0, 1); with the same one the answer is the same.
 *
 * @returns null where nothing was told that does not work, or where the model hardly ever has anything of the kind
 * @throws InvalidLocateRequest for too many informants, as `locate` does
 */
export function surprise(
  request: LocateRequest,
  random: Random,
  errors?: ErrorRates,
  expected?: ExpectedFaults,
): Surprise | null {
  const { observations = [] } = request;
  const isComplaint = ({ outcome, disconnectedBelow }: RequestObservation) =>
    outcome !== 'works' && disconnectedBelow === undefined;
  if (!observations.some(isComplaint)) return null;
  const times = SIMULATIONS + observations.length;
  const before = judgedSite(request, times, errors, expected);
  const { site, identitiesDropped } = before;
  const masses = joinTrunks(
    site,
    before.sweeps.map(({ port }) => port.logEvidence),
  );
  const spare: SpareSweeps = new Map();
  const isAsUnlikely = ({ leastLog, site: other }: DrawnEvidence) =>
    leastLog <= masses.logEvidence + SURELY &&
    logSweptMassAgain(before, other(), spare) <= masses.logEvidence + ROUNDING;
  let simulated = 0;
  let asUnlikely = 0;
  for (let draw = 0; draw < MOST_DRAWS && simulated < SIMULATIONS && asUnlikely < ENOUGH; draw++) {
    const drawn = drawEvidence(site, random);
    if (drawn === null) continue;
    simulated++;
    if (isAsUnlikely(drawn)) asUnlikely++;
  }
  if (simulated === 0) return null;
  const drawingMayBeWrong = simulated === SIMULATIONS && asUnlikely < ENOUGH;
  return {
    drawingMayBeWrong,
    share: asUnlikely / simulated,
    simulated,
    ...(identitiesDropped.length > 0 && { identitiesDropped }),
    mostSurprising: drawingMayBeWrong ? leaveOneOut({ ...before, masses }, spare) : [],
  };
}
