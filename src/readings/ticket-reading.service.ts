import { Injectable } from '@nestjs/common';
import type { LocateRequest, RequestReading } from '../locator/index.js';
import { InvalidInputError } from '../shared/domain-error.js';
import type { AsBuilt } from '../sites/as-built.js';
import { trunksOf } from '../sites/drawing.js';
import { SitesService } from '../sites/sites.service.js';
import { checkReading } from './check-reading.js';
import { type RecordedElectrical, recordedElectrical } from './recorded-electrical.js';
import { choosableReadings, type ChosenReadings } from './taken-reading.js';
import type { TicketReading } from './ticket-reading.entity.js';
import { TicketReadingRepository } from './ticket-reading.repository.js';

/** What a reading is about: a ticket, with the as-built version that was true then. */
export interface ReadOn {
  id: string;
  siteId: string;
  asBuiltVersion: number;
}

/** Keeps numbers read off a meter about a ticket, and says which of them a location goes by. */
@Injectable()
export class TicketReadingService {
  constructor(
    private readonly readings: TicketReadingRepository,
    private readonly sites: SitesService,
  ) {}

  /** A reading as the locator takes it; an error where it does not. */
  async check(ticket: ReadOn, sent: object): Promise<RequestReading> {
    const drawing = await this.sites.drawing(ticket.siteId, ticket.asBuiltVersion);
    const recorded = await this.electrical(ticket, drawing);
    const checked = checkReading(sent, trunksOf(drawing), recorded);
    if ('errors' in checked) throw new InvalidInputError(checked.errors);
    return checked.reading;
  }

  add(reading: Omit<TicketReading, 'firmId'>): Promise<void> {
    return this.readings.insert(reading);
  }

  /** Oldest first. */
  listOfTicket(ticketId: string): Promise<TicketReading[]> {
    return this.readings.listOfTicket(ticketId);
  }

  findOfTicket(ticketId: string, id: string): Promise<TicketReading | null> {
    return this.readings.findOfTicket(ticketId, id);
  }

  withdraw(id: string, withdrawalId: string): Promise<void> {
    return this.readings.withdraw(id, withdrawalId);
  }

  moveTo(ticketId: string, readingIds: string[]): Promise<void> {
    return this.readings.moveTo(ticketId, readingIds);
  }

  /** The readings that speak of the same as a ticket's observations, and the supply that they are held against. */
  async choose(
    ticket: ReadOn,
    drawing: AsBuilt,
    period: number,
    closedAt: Date | null,
  ): Promise<ChosenReadings & Pick<LocateRequest, 'electrical'>> {
    const taken = await this.readings.listOfTicket(ticket.id);
    if (taken.length === 0) return { chosen: [], leftOut: [] };
    const recorded = await this.electrical(ticket, drawing);
    const readings = choosableReadings(taken, period, closedAt, recorded);
    return { ...readings, ...('electrical' in recorded && recorded) };
  }

  /** What the ticket's version does not say may have been added since: a supply is seldom another one. */
  private async electrical(ticket: ReadOn, { headEnd }: AsBuilt): Promise<RecordedElectrical> {
    const recorded = recordedElectrical(headEnd, headEnd);
    if ('electrical' in recorded) return recorded;
    const now = await this.sites.drawing(ticket.siteId);
    return recordedElectrical(headEnd, now.headEnd);
  }
}
