import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { LongPageQueryDto, PageQueryDto } from '../shared/page.dto.js';
import { ObservationPageDto } from '../reports/observation.dto.js';
import { TicketEntryPageDto } from './ticket-entry.dto.js';
import { ReadingPageDto } from '../readings/reading.dto.js';
import { TicketDto, TicketPageDto, TicketQueryDto } from './ticket.dto.js';
import { TicketService } from './ticket.service.js';

@ApiTags('tickets')
@Controller('tickets')
export class TicketController {
  constructor(private readonly service: TicketService) {}

  /** Lists tickets, newest first. */
  @Get()
  @ApiProblems(422)
  list(@Query() query: TicketQueryDto): Promise<TicketPageDto> {
    return this.service.list(query);
  }

  /** Reads one ticket. */
  @Get(':ticketId')
  @ApiProblems(404, 422)
  get(@IdParam('ticketId') ticketId: string): Promise<TicketDto> {
    return this.service.get(ticketId);
  }

  /** Reads a ticket's log, oldest first, with the logs of tickets merged into it. */
  @Get(':ticketId/log')
  @ApiProblems(404, 422)
  log(
    @IdParam('ticketId') ticketId: string,
    @Query() { after, limit }: PageQueryDto,
  ): Promise<TicketEntryPageDto> {
    return this.service.listLog(ticketId, after, limit);
  }

  /** Reads what was heard and not, as far as it belongs to this ticket now: by when it was taken. */
  @Get(':ticketId/observations')
  @ApiProblems(404, 422)
  observations(
    @IdParam('ticketId') ticketId: string,
    @Query() { after, limit }: LongPageQueryDto,
  ): Promise<ObservationPageDto> {
    return this.service.listObservations(ticketId, after, limit);
  }

  /** Reads what was read off a meter, as far as it belongs to this ticket now: by when it was taken. */
  @Get(':ticketId/readings')
  @ApiProblems(404, 422)
  listReadings(
    @IdParam('ticketId') ticketId: string,
    @Query() { after, limit }: LongPageQueryDto,
  ): Promise<ReadingPageDto> {
    return this.service.listReadings(ticketId, after, limit);
  }
}
