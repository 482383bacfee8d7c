import { Injectable } from '@nestjs/common';
import type { Principal } from '../people/principal.js';
import type { WithdrawDto } from '../reports/withdrawal.dto.js';
import { MendingWithdrawalService } from '../tickets/mending-withdrawal.service.js';
import type { TicketDto } from '../tickets/ticket.dto.js';
import { TicketLogService } from '../tickets/ticket-log.service.js';
import type { MendingDto } from '../tickets/ticket-work.dto.js';
import { TicketWorkService } from '../tickets/ticket-work.service.js';
import { VanService } from './van.service.js';

/** Records a mending, and takes what was used out of the van of whoever mended; a mending that is withdrawn puts it back. */
@Injectable()
export class MendingService {
  constructor(
    private readonly work: TicketWorkService,
    private readonly withdrawals: MendingWithdrawalService,
    private readonly log: TicketLogService,
    private readonly vans: VanService,
  ) {}

  async record(asker: Principal, ticketId: string, done: MendingDto): Promise<TicketDto> {
    const said = this.log.dated(done);
    const takenFrom = await this.vans.take(asker, done.parts, said.saidAt);
    return this.work.recordMending(ticketId, said, takenFrom);
  }

  /** The van is held before the ticket, as above. */
  async withdraw(ticketId: string, mendingId: string, said: WithdrawDto): Promise<TicketDto> {
    const { details, happenedAt } = await this.withdrawals.find(ticketId, mendingId);
    if (details.takenFrom !== undefined) await this.vans.giveBack(details.takenFrom, happenedAt);
    return this.withdrawals.withdraw(ticketId, mendingId, said);
  }
}
