import { Injectable } from '@nestjs/common';
import type { LookDto, TakeLooksDto } from '../looks/look.dto.js';
import { LookService } from '../looks/look.service.js';
import { decodeCursor, type Page, toPage } from '../shared/page.js';
import { SitesService } from '../sites/sites.service.js';
import { TicketLogService } from './ticket-log.service.js';
import { TicketService } from './ticket.service.js';

/** So often what was seen is told of a ticket; all of it is read at once whenever it is located. */
const MOST_TIMES_LOOKED = 200;

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
    await this.log.checkRoom(ticket.id, 'look', MOST_TIMES_LOOKED);
    const drawing = await this.sites.drawing(ticket.siteId, ticket.asBuiltVersion);
    const looks = this.looks.check(sent, drawing);
    const { saidBy, saidAt: lookedAt, note = null } = said;
    const entryId = await this.log.write(ticket, 'look', said, { looks, note });
    const { id, period } = ticket;
    return this.looks.addOnTicket({ ticketId: id, period, entryId, saidBy, lookedAt, note }, looks);
  }

  /** Oldest first, with those that were seen on visits to it. */
  async list(ticketId: string, after: string | undefined, limit: number): Promise<Page<LookDto>> {
    await this.reader.find(ticketId);
    const rows = await this.looks.pageAbout(ticketId, decodeCursor(after, 2), limit + 1);
    const told = await this.log.tellWithdrawals(rows);
    const keyOf = (one: LookDto) => [one.lookedAt.toISOString(), one.id];
    return toPage(told, limit, keyOf, (one) => one);
  }
}
