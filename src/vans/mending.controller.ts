import { Body, Controller, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { CurrentPrincipal } from '../people/current-principal.decorator.js';
import type { Principal } from '../people/principal.js';
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
}
