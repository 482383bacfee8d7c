import { Injectable } from '@nestjs/common';
import type { LocateResult, Place } from '../locator/index.js';
import type { EventShare } from '../statistics/split-finding.js';
import { Clock } from '../shared/clock.js';
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
    const mendings = await this.log.listOfKind(ticket.id, ['mending']);
    const lastMending = mendings.at(-1)?.recordedAt;
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
    const tickets = await this.tickets.listClosed(filter);
    const ids = tickets.map(({ id }) => id);
    const predictions = await this.predictions.listOfTickets(ids);
    const entries = await this.log.listOfTickets(ids, ['finding', 'mending']);
    return { tickets: tickets.length, cases: predictedCases(predictions, entries) };
  }
}
