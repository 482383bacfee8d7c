import { Injectable } from '@nestjs/common';
import { ConflictError, NotFoundError } from '../shared/domain-error.js';
import { LookService } from '../looks/look.service.js';
import { ObservationService } from '../reports/observation.service.js';
import { TicketLogService } from './ticket-log.service.js';
import { ReadingService } from '../readings/reading.service.js';
import type { TicketDto } from './ticket.dto.js';
import { TicketService } from './ticket.service.js';
import type { WithdrawDto } from '../reports/withdrawal.dto.js';
import { stands, withdrawalOf } from '../reports/withdrawal.js';

/** How an entry of the log names what is taken back. */
const NAMED = {
  reading: 'readingIds',
  observation: 'observationIds',
  look: 'lookIds',
} as const;

/** Takes back what was entered in the wrong place: it stays, and is no evidence from then on. */
@Injectable()
export class WithdrawalService {
  constructor(
    private readonly readings: ReadingService,
    private readonly observations: ObservationService,
    private readonly looks: LookService,
    private readonly reader: TicketService,
    private readonly log: TicketLogService,
  ) {}

  async withdrawReading(ticketId: string, id: string, said: WithdrawDto): Promise<TicketDto> {
    return this.withdraw(ticketId, id, said, 'reading', this.readings);
  }

  async withdrawObservation(ticketId: string, id: string, said: WithdrawDto): Promise<TicketDto> {
    return this.withdraw(ticketId, id, said, 'observation', this.observations);
  }

  async withdrawLook(ticketId: string, id: string, said: WithdrawDto): Promise<TicketDto> {
    return this.withdraw(ticketId, id, said, 'look', this.looks);
  }

  /** The ticket is kept from others meanwhile, so that two who withdraw the same do not both. */
  private async withdraw(
    ticketId: string,
    id: string,
    said: WithdrawDto,
    what: keyof typeof NAMED,
    rows: ReadingService | ObservationService | LookService,
  ): Promise<TicketDto> {
    const ticket = await this.reader.findOpenToChange(ticketId);
    const row = await rows.findToWithdraw(ticket.id, id);
    if (row === null) throw new NotFoundError(what, id);
    if (!stands(row)) {
      const withdrawalId = withdrawalOf(row);
      throw new ConflictError(`This ${what} was withdrawn already.`, { withdrawalId });
    }
    const details = { [NAMED[what]]: [id], reason: said.reason };
    await rows.withdraw(id, await this.log.write(ticket, 'withdrawal', said, details));
    return this.reader.describe(ticket);
  }
}
