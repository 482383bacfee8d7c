import { Body, Controller, Get, HttpCode, Post, Put } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { CurrentPrincipal } from '../people/current-principal.decorator.js';
import type { Principal } from '../people/principal.js';
import { IfMatch } from '../shared/if-match.decorator.js';
import { InParts } from '../shared/in-parts.decorator.js';
import { DayParam } from './day-param.decorator.js';
import {
  AcceptedQuarterDto,
  AcceptQuarterDto,
  KeptQuarterWishDto,
  OwedQuarterDto,
  PlanQuarterDto,
  PutQuarterWishDto,
  QuarterPlanDto,
} from './quarter-plan.dto.js';
import { QuarterWishService } from './quarter-wish.service.js';
import { QuarterPlanService } from './quarter-plan.service.js';

/** Which promised visit is made when, and by whom. */
@ApiTags('plans')
@Controller('plans/quarters/:day')
export class QuarterPlanController {
  constructor(
    private readonly service: QuarterPlanService,
    private readonly wishes: QuarterWishService,
  ) {}

  /** Lists what is promised in thirteen weeks from a day on and nobody planned yet: what a plan would place, at most 200. */
  @Get()
  @InParts()
  @ApiProblems(422, 503)
  owed(@DayParam() day: string): Promise<OwedQuarterDto> {
    return this.service.owed(day);
  }

  /**
   * Plans thirteen weeks from a day on: the promised visits that nobody planned yet, at most 200, near to their best days, on days that
   * the contracts allow, those of one area together, as people want them. No plan is kept and nobody is sent by it.
   */
  @Post()
  @HttpCode(200)
  @InParts()
  @ApiProblems(422, 503)
  make(@DayParam() day: string, @Body() body: PlanQuarterDto): Promise<QuarterPlanDto> {
    return this.service.make(day, body);
  }

  /**
   * Keeps what is wanted of a promised visit, for everybody who plans these weeks. `If-Match` is the version that was read; 0 where
   * nothing was wanted yet.
   */
  @Put('wishes')
  @InParts()
  @ApiProblems(412, 422, 428, 503)
  want(
    @CurrentPrincipal() principal: Principal,
    @DayParam() day: string,
    @IfMatch() version: number,
    @Body() body: PutQuarterWishDto,
  ): Promise<KeptQuarterWishDto> {
    return this.wishes.put(principal, day, version, body);
  }

  /** Plans the visits, as the plan had them or otherwise; all of them or none. */
  @Post('acceptance')
  @InParts()
  @ApiProblems(404, 409, 422, 503)
  accept(@DayParam() day: string, @Body() body: AcceptQuarterDto): Promise<AcceptedQuarterDto> {
    return this.service.accept(day, body);
  }
}
