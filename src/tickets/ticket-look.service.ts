import { Injectable } from '@nestjs/common';
import type { LookDto, TakeLooksDto } from '../looks/look.dto.js';
import { LookService } from '../looks/look.service.js';
import { SitesService } from '../sites/sites.service.js';
import { TicketLogService } from './ticket-log.service.js';
import { TicketService } from './ticket.service.js';

/** Takes what somebody saw who looked at parts, as evidence on a ticket. */
@Injectable()
export class TicketLookService {
  constructor(
    private readonly reader: TicketService,
    private readonly log: TicketLogService,
    private readonly looks: LookService,
    private readonly sites: SitesService,
  ) {}

  async take(ticketId: string, sent: TakeLooksDto): Promise<LookDto[]> {
    const said = this.log.dated(sent);
    const ticket = await this.reader.findOpenToChange(ticketId);
    const drawing = await this.sites.drawing(ticket.siteId, ticket.asBuiltVersion);
    const looks = this.looks.check(sent, drawing);
    const { saidBy, saidAt: lookedAt, note = null } = said;
    const entryId = await this.log.write(ticket, 'look', said, { looks, note });
    const { id, period } = ticket;
    return this.looks.addOnTicket({ ticketId: id, period, entryId, saidBy, lookedAt, note }, looks);
  }

  /** Oldest first, with those that were seen on visits to it. */
  async list(ticketId: string): Promise<LookDto[]> {
    await this.reader.find(ticketId);
    return this.log.tellWithdrawals(await this.looks.listAbout(ticketId));
  }
}
