import { Injectable } from '@nestjs/common';
import { ImpossibleEvidence, InvalidLocateRequest, type Place } from '../locator/index.js';
import type { EventShare } from '../statistics/split-finding.js';
import { Clock } from '../shared/clock.js';
import { idOrNew } from '../shared/new-id.js';
import { findingShares } from './finding-shares.js';
import { type Location, LocationService } from './location.service.js';
import { predictedPlaces } from './place-chances.js';
import { type PredictedCase, predictedCases } from './predicted-cases.js';
import { PredictionRepository } from './prediction.repository.js';
import type { PredictionKeeper } from '../tickets/prediction-keeper.js';
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

  /** Keeps what is thought now, when somebody is sent. */
  async keep(ticket: Ticket, occasion: string): Promise<void> {
    await this.insert(ticket, occasion, await this.tryToLocate(ticket));
  }

  /**
   * Keeps what is thought before a finding is written down, if nobody was sent since the last mending; gives the finding
   * as events for the rates.
   */
  async keepForFinding(
    ticket: Ticket,
    place: Place,
    found: { component?: string | null; mode?: string | null },
  ): Promise<EventShare[]> {
    const mendings = await this.log.listOfKind(ticket.id, ['mending']);
    const lastMending = mendings.at(-1)?.recordedAt;
    const kept = await this.predictions.lastMadeAt(ticket.id);
    const isSent = kept !== null && (lastMending === undefined || kept > lastMending);
    const { component, mode } = found;
    if (isSent && component != null && mode != null) return [{ component, mode, events: 1 }];
    const location = await this.tryToLocate(ticket);
    if (!isSent) await this.insert(ticket, 'finding', location);
    return location === null ? [] : findingShares(place, found, location.result);
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

  private async insert(ticket: Ticket, occasion: string, location: Location | null): Promise<void> {
    if (location === null) return;
    await this.predictions.insert({
      id: idOrNew(undefined),
      ticketId: ticket.id,
      occasion,
      madeAt: this.clock.now(),
      places: predictedPlaces(location.suspects),
    });
  }

  /** Null where the evidence is more than the locator takes: work goes on, without a prediction. */
  private async tryToLocate(ticket: Ticket): Promise<Location | null> {
    try {
      return await this.location.workOut(ticket);
    } catch (error) {
      if (error instanceof InvalidLocateRequest || error instanceof ImpossibleEvidence) return null;
      throw error;
    }
  }
}
