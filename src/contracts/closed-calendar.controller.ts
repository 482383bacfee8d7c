import { Body, Controller, Delete, Get, HttpCode, Patch, Post, Put, Query } from '@nestjs/common';
import { ApiBody, ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { IfMatch } from '../shared/if-match.decorator.js';
import { InParts } from '../shared/in-parts.decorator.js';
import { MergePatchBody } from '../shared/merge-patch-body.decorator.js';
import { PageQueryDto } from '../shared/page.dto.js';
import {
  ClosedCalendarDto,
  ClosedCalendarPageDto,
  CreateClosedCalendarDto,
  ImportCalendarDto,
  PatchClosedCalendarDto,
  ReadDaysDto,
} from './closed-calendar.dto.js';
import { ClosedCalendarService } from './closed-calendar.service.js';

/** Days on which nothing is covered or nobody is to come, under a name that contracts go by. */
@ApiTags('contracts')
@Controller('closed-calendars')
export class ClosedCalendarController {
  constructor(private readonly service: ClosedCalendarService) {}

  /** Adds a calendar. */
  @Post()
  @ApiProblems(409, 422)
  create(@Body() body: CreateClosedCalendarDto): Promise<ClosedCalendarDto> {
    return this.service.create(body);
  }

  /** Lists the firm's calendars by name. */
  @Get()
  @ApiProblems(422)
  list(@Query() query: PageQueryDto): Promise<ClosedCalendarPageDto> {
    return this.service.list(query);
  }

  /** Reads one calendar. */
  @Get(':calendarId')
  @ApiProblems(404, 422)
  get(@IdParam('calendarId') calendarId: string): Promise<ClosedCalendarDto> {
    return this.service.get(calendarId);
  }

  /** Corrects a calendar by a merge patch; clocks that go by it are reckoned anew, and say so. */
  @Patch(':calendarId')
  @ApiBody({ type: PatchClosedCalendarDto })
  @ApiProblems(404, 412, 422, 428)
  change(
    @IdParam('calendarId') calendarId: string,
    @IfMatch() version: number,
    @MergePatchBody() patch: Record<string, unknown>,
  ): Promise<ClosedCalendarDto> {
    return this.service.change(calendarId, version, patch);
  }

  /** Reads the text of a calendar and tells what it would close; nothing is kept. What is wrong is told by its line. */
  @Post('reading')
  @HttpCode(200)
  @InParts()
  @ApiProblems(422, 503)
  read(@Body() { icalendar }: ImportCalendarDto): Promise<ReadDaysDto> {
    return this.service.read(icalendar);
  }

  /** Removes a calendar that no contract goes by. */
  @Delete(':calendarId')
  @HttpCode(204)
  @ApiProblems(404, 409, 412, 422, 428)
  async remove(
    @IdParam('calendarId') calendarId: string,
    @IfMatch() version: number,
  ): Promise<void> {
    await this.service.remove(calendarId, version);
  }

  /**
   * Puts the events of an iCalendar text in place of the calendar's times: its events of whole days, and those that come again; of
   * a rule without an end, those of the three years ahead and what came before, 200 to 400 days of it.
   */
  @Put(':calendarId/icalendar')
  @InParts()
  @ApiProblems(404, 412, 422, 428, 503)
  import(
    @IdParam('calendarId') calendarId: string,
    @IfMatch() version: number,
    @Body() { icalendar }: ImportCalendarDto,
  ): Promise<ClosedCalendarDto> {
    return this.service.import(calendarId, version, icalendar);
  }
}
