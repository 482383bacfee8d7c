import { InvalidLocateRequest, MAX_DISCONNECTIONS_OF_ONE_TRUNK } from '../locator/index.js';
import { recordedElectrical } from '../readings/recorded-electrical.js';
import { choosableReadings, type Period, takenAbout } from '../readings/taken-reading.js';
import { type Evidence, toEvidence } from './evidence.js';
import { lastClosed, type TicketFacts } from './ticket-facts.js';
import { type ChosenLooks, chooseLooks } from './ticket-looks.js';

/** What was said, seen and read about a ticket: of its facts what may be added to while somebody is on site. */
export type EvidenceFacts = Pick<
  TicketFacts,
  'ticket' | 'drawing' | 'headEndNow' | 'heard' | 'entries' | 'readings' | 'looks'
>;

/** What of it is gone by, of the time that is to be explained. */
export interface PosedEvidence {
  evidence: Evidence;
  looks: ChosenLooks;
  choice: ReturnType<typeof chooseReadings>;
  /** When what is to be explained began: what was before is the site’s past. */
  since: Date;
  period: number;
  closedAt: Date | null;
}

/**
 * Works something out with as many places of disconnection as the locator carries, the last ones kept longest: several
 * functions tried at many places, or a trunk of many branches, are more than it takes, and a ticket is located all the same.
 *
 * @throws what `workOut` throws about anything but disconnections
 */
export function asCarried<T>(facts: EvidenceFacts, workOut: (posed: PosedEvidence) => T): T {
  for (let most = MAX_DISCONNECTIONS_OF_ONE_TRUNK; ;) {
    const posed = poseEvidence(facts, most);
    try {
      return workOut(posed);
    } catch (error) {
      const places = mostPlacesOfDisconnection(posed.evidence);
      if (!(error instanceof InvalidLocateRequest) || places === 0) throw error;
      most = places - 1;
    }
  }
}

/** Of the trunk that has most. */
function mostPlacesOfDisconnection({ used }: Evidence): number {
  const places = new Map<string, Set<string>>();
  for (const { trunk, disconnectedBelow } of used)
    if (disconnectedBelow != null)
      places.set(trunk, (places.get(trunk) ?? new Set()).add(disconnectedBelow));
  return Math.max(0, ...[...places.values()].map(({ size }) => size));
}

function poseEvidence(facts: EvidenceFacts, disconnections: number): PosedEvidence {
  const { ticket, drawing, entries } = facts;
  const closedAt = lastClosed(ticket, entries);
  const evidence = toEvidence(drawing, facts.heard, closedAt, disconnections);
  const [first] = evidence.used;
  const period = first?.period ?? ticket.period;
  const mendedAt = entries.filter(({ kind }) => kind === 'mending').map((one) => one.happenedAt);
  const before = Math.max(0, ticket.period - mendedAt.length);
  const when = { period, closedAt, mendedAt, before };
  return {
    evidence,
    looks: chooseLooks(facts, when, evidence.request.trunks),
    choice: chooseReadings(facts, when),
    since: first?.observedAt ?? ticket.openedAt,
    period,
    closedAt,
  };
}

/** What the ticket's version does not say of the supply may have been added since: it is seldom another one. */
function chooseReadings(facts: EvidenceFacts, period: Period) {
  const { taken, leftOut } = takenAbout(facts.readings, period);
  if (taken.length === 0) return { chosen: [], leftOut };
  const recorded = recordedElectrical(facts.drawing.headEnd, facts.headEndNow);
  const choice = choosableReadings(taken, period, recorded);
  return {
    chosen: choice.chosen,
    leftOut: [...leftOut, ...choice.leftOut],
    ...('electrical' in recorded && recorded),
  };
}
