import { Body, Controller, HttpCode, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { InParts } from '../shared/in-parts.decorator.js';
import { DayParam } from './day-param.decorator.js';
import {
  AcceptedQuarterDto,
  AcceptQuarterDto,
  PlanQuarterDto,
  QuarterPlanDto,
} from './quarter-plan.dto.js';
import { QuarterPlanService } from './quarter-plan.service.js';

/** Which promised visit is made when, and by whom. */
@ApiTags('plans')
@Controller('plans/quarters/:day')
export class QuarterPlanController {
  constructor(private readonly service: QuarterPlanService) {}

  /**
   * Plans thirteen weeks from a day on: the promised visits that nobody planned yet, at most 200, near to their best days, on days that
   * the contracts allow, those of one area together, as people want them. Nothing is kept and nobody is sent by it.
   */
  @Post()
  @HttpCode(200)
  @InParts()
  @ApiProblems(422, 503)
  make(@DayParam() day: string, @Body() { wishes }: PlanQuarterDto): Promise<QuarterPlanDto> {
    return this.service.make(day, wishes);
  }

  /** Plans the visits, as the plan had them or otherwise; all of them or none. */
  @Post('acceptance')
  @InParts()
  @ApiProblems(404, 409, 422, 503)
  accept(@DayParam() day: string, @Body() body: AcceptQuarterDto): Promise<AcceptedQuarterDto> {
    return this.service.accept(day, body);
  }
}
