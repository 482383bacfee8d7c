import { Injectable } from '@nestjs/common';
import type { LocateRequest } from '../locator/index.js';
import { InvalidInputError } from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import type { AsBuilt } from '../sites/as-built.js';
import { SitesService } from '../sites/sites.service.js';
import { checkReading } from './check-reading.js';
import { trunksOf } from '../locating/evidence.js';
import { type RecordedElectrical, recordedElectrical } from './recorded-electrical.js';
import { choosableReadings, type ChosenReadings } from './taken-reading.js';
import { TicketLogService } from '../tickets/ticket-log.service.js';
import type { TakeReadingDto } from './ticket-reading.dto.js';
import { TicketReadingRepository } from './ticket-reading.repository.js';
import type { TicketDto } from '../tickets/ticket.dto.js';
import type { Ticket } from '../tickets/ticket.entity.js';
import { TicketService } from '../tickets/ticket.service.js';

/** Takes numbers read off a meter about a ticket, and says which of them a location goes by. */
@Injectable()
export class TicketReadingService {
  constructor(
    private readonly readings: TicketReadingRepository,
    private readonly reader: TicketService,
    private readonly log: TicketLogService,
    private readonly sites: SitesService,
  ) {}

  /** Appends one entry with its reading to a ticket's log. */
  async record(ticketId: string, taken: TakeReadingDto): Promise<TicketDto> {
    const ticket = await this.reader.findOpenToChange(ticketId);
    const sent = { id: idOrNew(taken.id), saidBy: taken.takenBy, saidAt: taken.takenAt };
    const takenAt = this.log.saidAt(sent, '/takenAt');
    const said = { ...sent, saidAt: takenAt };
    const drawing = await this.sites.drawing(ticket.siteId, ticket.asBuiltVersion);
    const recorded = await this.electrical(ticket, drawing);
    const checked = checkReading(taken.reading, trunksOf(drawing), recorded);
    if ('errors' in checked) throw new InvalidInputError(checked.errors);
    const { reading } = checked;
    await this.log.write(ticket, 'reading', said, { reading, note: taken.note });
    await this.readings.insert({
      id: said.id,
      ticketId: ticket.id,
      reading,
      takenBy: taken.takenBy.name,
      takenByKind: taken.takenBy.kind,
      takenAt,
      recordedAt: this.log.now(),
      period: ticket.period,
      withdrawalId: null,
    });
    return this.reader.describe(ticket);
  }

  /** The readings that speak of the same as a ticket's observations, and the supply that they are held against. */
  async choose(
    ticket: Ticket,
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
  private async electrical(ticket: Ticket, { headEnd }: AsBuilt): Promise<RecordedElectrical> {
    const recorded = recordedElectrical(headEnd, headEnd);
    if ('electrical' in recorded) return recorded;
    const now = await this.sites.drawing(ticket.siteId);
    return recordedElectrical(headEnd, now.headEnd);
  }
}
