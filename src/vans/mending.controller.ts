import { Body, Controller, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { CurrentPrincipal } from '../people/current-principal.decorator.js';
import type { Principal } from '../people/principal.js';
import { WithdrawDto } from '../reports/withdrawal.dto.js';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { TicketDto } from '../tickets/ticket.dto.js';
import { MendingDto } from '../tickets/ticket-work.dto.js';
import { MendingService } from './mending.service.js';

@ApiTags('tickets')
@Controller('tickets/:ticketId/mendings')
export class MendingController {
  constructor(private readonly service: MendingService) {}

  /** Records what was mended, for good or for the time being. What was used is no longer in the van of whoever sends it. */
  @Post()
  @ApiProblems(404, 409, 422)
  record(
    @CurrentPrincipal() principal: Principal,
    @IdParam('ticketId') id: string,
    @Body() mending: MendingDto,
  ): Promise<TicketDto> {
    return this.service.record(principal, id, mending);
  }

  /**
   * Takes back a mending that was entered by mistake: it stays in the log as `withdrawn-mending`, the ticket is in the state that the log
   * leads to without it, and what was heard, read and looked at since counts as said before it. What it took out of a van is put
   * back, unless somebody said since what is in the van. Answers with the ticket.
   */
  @Post(':mendingId/withdraw')
  @ApiProblems(404, 409, 422)
  withdraw(
    @IdParam('ticketId') id: string,
    @IdParam('mendingId') mendingId: string,
    @Body() said: WithdrawDto,
  ): Promise<TicketDto> {
    return this.service.withdraw(id, mendingId, said);
  }
}
