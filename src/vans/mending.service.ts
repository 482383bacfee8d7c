import { Injectable } from '@nestjs/common';
import type { Principal } from '../people/principal.js';
import type { TicketDto } from '../tickets/ticket.dto.js';
import { TicketLogService } from '../tickets/ticket-log.service.js';
import type { MendingDto } from '../tickets/ticket-work.dto.js';
import { TicketWorkService } from '../tickets/ticket-work.service.js';
import { VanService } from './van.service.js';

/** Records a mending, and takes what was used out of the van of whoever mended. */
@Injectable()
export class MendingService {
  constructor(
    private readonly work: TicketWorkService,
    private readonly log: TicketLogService,
    private readonly vans: VanService,
  ) {}

  async record(asker: Principal, ticketId: string, done: MendingDto): Promise<TicketDto> {
    const ticket = await this.work.recordMending(ticketId, done);
    await this.vans.take(asker, done.parts, this.log.saidAt(done));
    return ticket;
  }
}
