import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { LocationDto } from './location.dto.js';
import { LocationService } from './location.service.js';
import { WalkDto, WalkQueryDto } from './walk.dto.js';
import { WalkService } from './walk.service.js';

@ApiTags('tickets')
@Controller('tickets/:ticketId')
export class LocationController {
  constructor(
    private readonly location: LocationService,
    private readonly walk: WalkService,
  ) {}

  /** Works out where the trouble lies. */
  @Get('location')
  @ApiProblems(404, 422)
  locate(@IdParam('ticketId') ticketId: string): Promise<LocationDto> {
    return this.location.locate(ticketId);
  }

  /** Plans what to do next on site: the next step, the plan from there, and the parts to carry. */
  @Get('walk')
  @ApiProblems(404, 422)
  planWalk(@IdParam('ticketId') ticketId: string, @Query() query: WalkQueryDto): Promise<WalkDto> {
    return this.walk.plan(ticketId, query);
  }
}
