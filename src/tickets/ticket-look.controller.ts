import { Body, Controller, Get, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { LookListDto, LookPageDto, TakeLooksDto } from '../looks/look.dto.js';
import { WithdrawDto } from '../reports/withdrawal.dto.js';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { LongPageQueryDto } from '../shared/page.dto.js';
import { TicketDto } from './ticket.dto.js';
import { TicketLookService } from './ticket-look.service.js';
import { WithdrawalService } from './withdrawal.service.js';

/** What parts looked like: terminals opened and found sound, a switch that was off. */
@ApiTags('tickets')
@Controller('tickets/:ticketId/looks')
export class TicketLookController {
  constructor(
    private readonly looks: TicketLookService,
    private readonly withdrawals: WithdrawalService,
  ) {}

  /** Takes what somebody saw at a part, or at several; answers with what was entered. */
  @Post()
  @ApiProblems(404, 409, 422)
  async take(@IdParam('ticketId') id: string, @Body() sent: TakeLooksDto): Promise<LookListDto> {
    return { items: await this.looks.take(id, sent) };
  }

  /** Reads what was seen, also in answers and findings, as far as it belongs to this ticket now: by when it was seen. */
  @Get()
  @ApiProblems(404, 422)
  list(
    @IdParam('ticketId') id: string,
    @Query() { after, limit }: LongPageQueryDto,
  ): Promise<LookPageDto> {
    return this.looks.list(id, after, limit);
  }

  /** Takes back what was said of the wrong part: it stays, but is no evidence any more. Answers with the ticket. */
  @Post(':lookId/withdraw')
  @ApiProblems(404, 409, 422)
  withdraw(
    @IdParam('ticketId') id: string,
    @IdParam('lookId') lookId: string,
    @Body() said: WithdrawDto,
  ): Promise<TicketDto> {
    return this.withdrawals.withdrawLook(id, lookId, said);
  }
}
