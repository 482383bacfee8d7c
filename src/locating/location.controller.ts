import { Controller, Get, Header, Query } from '@nestjs/common';
import { ApiOkResponse, ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { InParts } from '../shared/in-parts.decorator.js';
import { LocationDto } from './location.dto.js';
import { LocationService } from './location.service.js';
import { WalkDto, WalkQueryDto } from './walk.dto.js';
import { WalkService } from './walk.service.js';

/** The answers come written out, from the thread that worked them out. */
const JSON_TYPE = 'application/json; charset=utf-8';

@ApiTags('tickets')
@Controller('tickets/:ticketId')
export class LocationController {
  constructor(
    private readonly location: LocationService,
    private readonly walk: WalkService,
  ) {}

  /** Works out where the trouble lies. */
  @Get('location')
  @InParts()
  @Header('content-type', JSON_TYPE)
  @ApiOkResponse({ type: LocationDto })
  @ApiProblems(404, 422, 503)
  locate(@IdParam('ticketId') ticketId: string): Promise<string> {
    return this.location.locate(ticketId);
  }

  /** Plans what to do next on site: the next step, the plan from there, and the parts to carry. */
  @Get('walk')
  @InParts()
  @Header('content-type', JSON_TYPE)
  @ApiOkResponse({ type: WalkDto })
  @ApiProblems(404, 422, 503)
  planWalk(@IdParam('ticketId') ticketId: string, @Query() query: WalkQueryDto): Promise<string> {
    return this.walk.plan(ticketId, query);
  }
}
