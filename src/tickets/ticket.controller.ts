import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { PageQueryDto } from '../shared/page.dto.js';
import { LocationDto } from '../locating/location.dto.js';
import { LocationService } from '../locating/location.service.js';
import { ObservationListDto, TicketEntryPageDto } from './ticket-entry.dto.js';
import { TicketReadingListDto } from '../readings/ticket-reading.dto.js';
import { TicketDto, TicketPageDto, TicketQueryDto } from './ticket.dto.js';
import { TicketService } from './ticket.service.js';
import { WalkDto, WalkQueryDto } from '../locating/walk.dto.js';
import { WalkService } from '../locating/walk.service.js';

@ApiTags('tickets')
@Controller('tickets')
export class TicketController {
  constructor(
    private readonly service: TicketService,
    private readonly location: LocationService,
    private readonly walk: WalkService,
  ) {}

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

  /** Reads what was heard and not, as far as it belongs to this ticket now. */
  @Get(':ticketId/observations')
  @ApiProblems(404, 422)
  async observations(@IdParam('ticketId') ticketId: string): Promise<ObservationListDto> {
    return { items: await this.service.listObservations(ticketId) };
  }

  /** Reads what was read off a meter, as far as it belongs to this ticket now. */
  @Get(':ticketId/readings')
  @ApiProblems(404, 422)
  async listReadings(@IdParam('ticketId') ticketId: string): Promise<TicketReadingListDto> {
    return { items: await this.service.listReadings(ticketId) };
  }

  /** Works out where the trouble lies. */
  @Get(':ticketId/location')
  @ApiProblems(404, 422)
  locate(@IdParam('ticketId') ticketId: string): Promise<LocationDto> {
    return this.location.locate(ticketId);
  }

  /** Plans what to do next on site: the next step, the plan from there, and the parts to carry. */
  @Get(':ticketId/walk')
  @ApiProblems(404, 422)
  planWalk(@IdParam('ticketId') ticketId: string, @Query() query: WalkQueryDto): Promise<WalkDto> {
    return this.walk.plan(ticketId, query);
  }
}
