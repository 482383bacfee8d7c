import { Controller, Get, HttpCode, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IfMatch } from '../shared/if-match.decorator.js';
import { InParts } from '../shared/in-parts.decorator.js';
import { DayParam } from './day-param.decorator.js';
import { DayPlanDto } from './day-plan.dto.js';
import { DayPlanService } from './day-plan.service.js';

/** Who goes where on a day, and in which order. */
@ApiTags('plans')
@Controller('plans/days/:day')
export class DayPlanController {
  constructor(private readonly service: DayPlanService) {}

  /** Reads the plan of a day as it was made last. */
  @Get()
  @ApiProblems(404, 422)
  get(@DayParam() day: string): Promise<DayPlanDto> {
    return this.service.get(day);
  }

  /**
   * Plans a day anew: its visits and the open tickets that nobody visits yet, as near to the best as can be proven in some
   * seconds. Nobody is sent by it.
   */
  @Post()
  @InParts()
  @ApiProblems(422, 503)
  make(@DayParam() day: string): Promise<DayPlanDto> {
    return this.service.make(day);
  }

  /** Does as the plan says: names who goes to each visit, and plans a visit for each ticket. */
  @Post('acceptance')
  @HttpCode(200)
  @ApiProblems(404, 409, 412, 422, 428)
  accept(@DayParam() day: string, @IfMatch() version: number): Promise<DayPlanDto> {
    return this.service.accept(day, version);
  }
}
