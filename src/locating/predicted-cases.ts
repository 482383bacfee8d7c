import type { Place } from '../locator/index.js';
import type { PredictedPlace } from './place-chances.js';
import type { EntryDetails, EntryKind } from '../tickets/ticket-log.js';

/** What was predicted when somebody was sent, and where something was found. */
export interface PredictedCase {
  ticketId: string;
  /** Most probable first; null where nothing was predicted. */
  predicted: readonly PredictedPlace[] | null;
  /** In the order in which it was found; empty where nothing was. */
  found: Place[];
}

interface Made {
  ticketId: string;
  madeAt: Date;
  places: readonly PredictedPlace[];
}

interface Recorded {
  ticketId: string;
  recordedAt: Date;
  kind: EntryKind;
  details: EntryDetails;
}

type Event = { at: number; prediction: Made } | { at: number; entry: Recorded };

/**
 * A case for each stretch of a ticket up to a mending in which somebody was sent or something was found: the last
 * prediction before the first finding counts. Both lists oldest first; made at the same instant, the prediction was first.
 */
export function predictedCases(
  predictions: readonly Made[],
  entries: readonly Recorded[],
): PredictedCase[] {
  const events: Event[] = [
    ...predictions.map((prediction) => ({ at: prediction.madeAt.getTime(), prediction })),
    ...entries.map((entry) => ({ at: entry.recordedAt.getTime(), entry })),
  ].sort((a, b) => a.at - b.at);
  const cases: PredictedCase[] = [];
  const open = new Map<string, PredictedCase>();
  const ofTicket = (ticketId: string) => {
    const known = open.get(ticketId);
    if (known !== undefined) return known;
    const begun: PredictedCase = { ticketId, predicted: null, found: [] };
    open.set(ticketId, begun);
    cases.push(begun);
    return begun;
  };
  for (const event of events) {
    if ('prediction' in event) {
      const { ticketId, places } = event.prediction;
      const one = ofTicket(ticketId);
      if (one.found.length === 0) one.predicted = places;
    } else if (event.entry.kind === 'mending') {
      open.delete(event.entry.ticketId);
    } else if (event.entry.details.place != null) {
      ofTicket(event.entry.ticketId).found.push(event.entry.details.place);
    }
  }
  return cases;
}
