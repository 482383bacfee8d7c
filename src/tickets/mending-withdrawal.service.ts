import { Injectable } from '@nestjs/common';
import { ConflictError, NotFoundError } from '../shared/domain-error.js';
import type { WithdrawDto } from '../reports/withdrawal.dto.js';
import { MendingWithdrawalRepository } from './mending-withdrawal.repository.js';
import { STATING_KINDS, stateByLog } from './state-by-log.js';
import type { TicketDto } from './ticket.dto.js';
import type { Ticket } from './ticket.entity.js';
import type { TicketEntry } from './ticket-entry.entity.js';
import { TicketLogService } from './ticket-log.service.js';
import { TicketService } from './ticket.service.js';

/** Takes back a mending that was entered by mistake: the ticket is as if nobody had entered it, and the log says so. */
@Injectable()
export class MendingWithdrawalService {
  constructor(
    private readonly mendings: MendingWithdrawalRepository,
    private readonly reader: TicketService,
    private readonly log: TicketLogService,
  ) {}

  /** A mending of the ticket, withdrawn or not. */
  async find(ticketId: string, id: string): Promise<TicketEntry> {
    const mending = await this.mendings.find(ticketId, id);
    if (mending === null) throw new NotFoundError('mending', id);
    return mending;
  }

  /** The ticket is kept from others meanwhile, so that two who withdraw the same do not both. */
  async withdraw(ticketId: string, id: string, said: WithdrawDto): Promise<TicketDto> {
    const ticket = await this.reader.findOpenToChange(ticketId);
    const mending = await this.find(ticket.id, id);
    if (mending.kind !== 'mending') {
      const withdrawalId = await this.mendings.withdrawalOf(ticket.id, id);
      throw new ConflictError('This mending was withdrawn already.', { withdrawalId });
    }
    const followUpBefore = ticket.followUpDueOn;
    await this.mendings.withdraw(mending);
    const left = stateByLog(await this.log.listOfTickets([ticket.id], [...STATING_KINDS]));
    // The other ticket's follow-up visit is not in this log.
    const isOthers = await this.mendings.isMergedSince(mending);
    const changes: Partial<Ticket> = {
      state: left.state,
      followUpDueOn: isOthers ? followUpBefore : left.followUpDueOn,
      period: Math.max(0, ticket.period - 1),
    };
    const details = { mendingIds: [id], reason: said.reason };
    await this.log.write(ticket, 'withdrawal', said, details, changes);
    return this.reader.describe(ticket);
  }
}
