import { Body, Controller, Get, Patch, Put } from '@nestjs/common';
import { ApiBody, ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { IfMatch } from '../shared/if-match.decorator.js';
import { MergePatchBody } from '../shared/merge-patch-body.decorator.js';
import { JobWishDto, JobWishFieldsDto } from './job-wish.dto.js';
import { PatchPlanningRulesDto, PlanningRulesDto } from './planning-rules.dto.js';
import { PlanningService } from './planning.service.js';
import { WorkingTimeDto, WorkingTimeFieldsDto, WorkingTimeListDto } from './working-time.dto.js';

/** What plans go by. */
@ApiTags('plans')
@Controller()
export class PlanningController {
  constructor(private readonly service: PlanningService) {}

  /** Lists when each technician works, what for, and where their days begin; the first 200 by name. */
  @Get('working-times')
  async workingTimes(): Promise<WorkingTimeListDto> {
    return { items: await this.service.listWorkingTimes() };
  }

  /** Says when somebody works; whole, in place of what was read. */
  @Put('people/:personId/working-time')
  @ApiProblems(404, 412, 422, 428)
  putWorkingTime(
    @IdParam('personId') personId: string,
    @IfMatch() version: number,
    @Body() fields: WorkingTimeFieldsDto,
  ): Promise<WorkingTimeDto> {
    return this.service.putWorkingTime(personId, version, fields);
  }

  /** Reads how ways and lengths are reckoned. */
  @Get('planning-rules')
  rules(): Promise<PlanningRulesDto> {
    return this.service.rules();
  }

  /** Changes how ways and lengths are reckoned, by a merge patch. */
  @Patch('planning-rules')
  @ApiBody({ type: PatchPlanningRulesDto })
  @ApiProblems(412, 422, 428)
  changeRules(
    @IfMatch() version: number,
    @MergePatchBody() patch: Record<string, unknown>,
  ): Promise<PlanningRulesDto> {
    return this.service.changeRules(version, patch);
  }

  /** Reads what is wanted of a job: a visit, or a ticket that nobody visits yet. */
  @Get('plans/jobs/:jobId/wish')
  @ApiProblems(404, 422)
  wish(@IdParam('jobId') jobId: string): Promise<JobWishDto> {
    return this.service.wish(jobId);
  }

  /** Says who does a job, who does not, how long it takes and what it needs; the next plan keeps to it. */
  @Put('plans/jobs/:jobId/wish')
  @ApiProblems(404, 412, 422, 428)
  putWish(
    @IdParam('jobId') jobId: string,
    @IfMatch() version: number,
    @Body() fields: JobWishFieldsDto,
  ): Promise<JobWishDto> {
    return this.service.putWish(jobId, version, fields);
  }
}
