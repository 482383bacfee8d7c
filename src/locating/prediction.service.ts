import { Injectable } from '@nestjs/common';
import type { LocateResult, Place } from '../locator/index.js';
import type { EventShare } from '../statistics/split-finding.js';
import { Clock } from '../shared/clock.js';
import { InvalidInputError } from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import { findingShares } from './finding-shares.js';
import { LocationService } from './location.service.js';
import type { PredictedPlace } from './place-chances.js';
import { type PredictedCase, predictedCases } from './predicted-cases.js';
import { PredictionRepository } from './prediction.repository.js';
import type { PredictionKeeper, Thought } from '../tickets/prediction-keeper.js';
import { TicketLogService } from '../tickets/ticket-log.service.js';
import type { Ticket } from '../tickets/ticket.entity.js';
import { TicketService } from '../tickets/ticket.service.js';

/** Tickets of which the predictions are read together: each has every place of its site. */
const CLOSED_AT_ONCE = 100;

/** What is held and compared at once: some 2,000 tickets of sites of 40 rooms. */
const MOST_PLACES = 300_000;

/** Keeps where a ticket's trouble was thought to lie, so that it can be held against what was found. */
@Injectable()
export class PredictionService implements PredictionKeeper {
  constructor(
    private readonly predictions: PredictionRepository,
    private readonly tickets: TicketService,
    private readonly log: TicketLogService,
    private readonly location: LocationService,
    private readonly clock: Clock,
  ) {}

  async think(ticketId: string): Promise<Thought | null> {
    const located = await this.location.thought(ticketId);
    if (located === null) return null;
    const { result } = JSON.parse(located.answer) as { result: LocateResult };
    return {
      predicted: JSON.parse(located.predicted) as PredictedPlace[],
      places: result.places,
    };
  }

  async keep(ticket: Ticket, occasion: string, thought: Thought | null): Promise<void> {
    if (thought === null) return;
    await this.predictions.insert({
      id: idOrNew(undefined),
      ticketId: ticket.id,
      occasion,
      madeAt: this.clock.now(),
      places: [...thought.predicted],
    });
  }

  /**
   * Keeps what was thought before a finding is written down, if nobody was sent since the last mending; gives the finding
   * as events for the rates.
   */
  async keepForFinding(
    ticket: Ticket,
    place: Place,
    found: { component?: string | null; mode?: string | null },
    thought: Thought | null,
  ): Promise<EventShare[]> {
    const lastMending = (await this.log.lastOfKind(ticket.id, ['mending']))?.recordedAt;
    const kept = await this.predictions.lastMadeAt(ticket.id);
    const isSent = kept !== null && (lastMending === undefined || kept > lastMending);
    const { component, mode } = found;
    if (isSent && component != null && mode != null) return [{ component, mode, events: 1 }];
    if (!isSent) await this.keep(ticket, 'finding', thought);
    return thought === null ? [] : findingShares(place, found, thought);
  }

  /** What was predicted and found on the tickets that were closed in a period. */
  async casesClosed(filter: {
    siteId?: string;
    from?: Date;
    until?: Date;
  }): Promise<{ tickets: number; cases: PredictedCase[] }> {
    const cases: PredictedCase[] = [];
    let [tickets, places] = [0, 0];
    let last: Ticket | undefined;
    let page: Ticket[];
    do {
      page = await this.tickets.listClosed(filter, last, CLOSED_AT_ONCE);
      last = page.at(-1);
      tickets += page.length;
      for (const one of await this.casesOf(page.map(({ id }) => id))) {
        places += one.predicted?.length ?? 0;
        cases.push(one);
      }
      if (places > MOST_PLACES) throw tooManyPlaces();
    } while (page.length === CLOSED_AT_ONCE);
    return { tickets, cases };
  }

  private async casesOf(ticketIds: string[]): Promise<PredictedCase[]> {
    const predictions = await this.predictions.listOfTickets(ticketIds);
    const entries = await this.log.listOfTickets(ticketIds, ['finding', 'mending']);
    return predictedCases(predictions, entries);
  }
}

function tooManyPlaces(): InvalidInputError {
  const reason = `is too early: more than ${MOST_PLACES} places were predicted on the tickets closed since then; ask for a shorter period or one site`;
  return new InvalidInputError([{ field: 'from', reason }]);
}
