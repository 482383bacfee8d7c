import { Body, Controller, Get, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { InParts } from '../shared/in-parts.decorator.js';
import {
  BreachCauseDto,
  PauseDto,
  ResumeDto,
  TicketClockDto,
  TroubleClassDto,
} from './ticket-promise.dto.js';
import { TicketPromiseService } from './ticket-promise.service.js';

/** What was promised for a ticket by the contract that was in force when it was reported. */
@ApiTags('tickets')
@Controller('tickets/:ticketId')
export class TicketPromiseController {
  constructor(private readonly service: TicketPromiseService) {}

  /** Tells how long there is until somebody is on site and until it works again, line by line. */
  @Get('clock')
  @InParts()
  @ApiProblems(404, 422, 503)
  clock(@IdParam('ticketId') ticketId: string): Promise<TicketClockDto> {
    return this.service.clock(ticketId);
  }

  /** Stops the clock, for a reason that the contract allows and with what shows it. */
  @Post('pauses')
  @InParts()
  @ApiProblems(404, 409, 422, 503)
  pause(@IdParam('ticketId') ticketId: string, @Body() pause: PauseDto): Promise<TicketClockDto> {
    return this.service.pause(ticketId, pause);
  }

  /** Lets the clock go on. */
  @Post('pauses/end')
  @InParts()
  @ApiProblems(404, 409, 422, 503)
  resume(
    @IdParam('ticketId') ticketId: string,
    @Body() resume: ResumeDto,
  ): Promise<TicketClockDto> {
    return this.service.resume(ticketId, resume);
  }

  /** Says of which class the trouble is, against what evidence and causes say. */
  @Post('trouble-class')
  @InParts()
  @ApiProblems(404, 409, 422, 503)
  classify(
    @IdParam('ticketId') ticketId: string,
    @Body() said: TroubleClassDto,
  ): Promise<TicketClockDto> {
    return this.service.classify(ticketId, said);
  }

  /** Says why a promise was not kept. */
  @Post('breach-causes')
  @InParts()
  @ApiProblems(404, 409, 422, 503)
  tellCause(
    @IdParam('ticketId') ticketId: string,
    @Body() said: BreachCauseDto,
  ): Promise<TicketClockDto> {
    return this.service.tellCause(ticketId, said);
  }
}
