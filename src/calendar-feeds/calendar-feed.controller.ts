import { Body, Controller, Get, Header, HttpCode, Post, Query } from '@nestjs/common';
import { ApiOkResponse, ApiProduces, ApiTags } from '@nestjs/swagger';
import { CurrentPrincipal } from '../people/current-principal.decorator.js';
import type { Principal } from '../people/principal.js';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { InParts } from '../shared/in-parts.decorator.js';
import {
  CalendarFeedListDto,
  CalendarKeyDto,
  CreateCalendarFeedDto,
  NewCalendarFeedDto,
} from './calendar-feed.dto.js';
import { CalendarFeedService } from './calendar-feed.service.js';

/** Visits in people's own calendar programs. */
@ApiTags('calendars')
@Controller()
export class CalendarFeedController {
  constructor(private readonly service: CalendarFeedService) {}

  /** Makes a secret link to one's own visits, a technician's, or those to a site. */
  @Post('calendars')
  @ApiProblems(404, 422)
  create(
    @CurrentPrincipal() principal: Principal,
    @Body() body: CreateCalendarFeedDto,
  ): Promise<NewCalendarFeedDto> {
    return this.service.create(principal, body);
  }

  /** Lists the links that were made, the 500 newest; technicians see their own. */
  @Get('calendars')
  async list(@CurrentPrincipal() principal: Principal): Promise<CalendarFeedListDto> {
    return { items: await this.service.list(principal) };
  }

  /** Ends a link at once. */
  @Post('calendars/:calendarFeedId/end')
  @HttpCode(204)
  @ApiProblems(404, 422)
  async end(
    @CurrentPrincipal() principal: Principal,
    @IdParam('calendarFeedId') id: string,
  ): Promise<void> {
    await this.service.end(principal, id);
  }

  /** What a calendar program reads (RFC 5545): visits from 30 days ago to 400 ahead, the first 500; without hours as whole days. */
  @Get('calendar')
  @InParts()
  @Header('content-type', 'text/calendar; charset=utf-8')
  @ApiProduces('text/calendar')
  @ApiOkResponse({ content: { 'text/calendar': { schema: { type: 'string' } } } })
  @ApiProblems(404, 410, 422)
  show(@Query() { key }: CalendarKeyDto): Promise<string> {
    return this.service.show(key);
  }
}
