import { Body, Controller, Get, Patch, Post, Query } from '@nestjs/common';
import { ApiBody, ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { IfMatch } from '../shared/if-match.decorator.js';
import { MergePatchBody } from '../shared/merge-patch-body.decorator.js';
import {
  CreateVisitDto,
  PatchVisitDto,
  VisitDto,
  VisitPageDto,
  VisitQueryDto,
} from './visit.dto.js';
import { VisitService } from './visit.service.js';

@ApiTags('visits')
@Controller('visits')
export class VisitController {
  constructor(private readonly service: VisitService) {}

  /** Plans a visit. */
  @Post()
  @ApiProblems(409, 422)
  create(@Body() body: CreateVisitDto): Promise<VisitDto> {
    return this.service.create(body);
  }

  /** Lists visits by day. */
  @Get()
  @ApiProblems(422)
  list(@Query() query: VisitQueryDto): Promise<VisitPageDto> {
    return this.service.list(query);
  }

  /** Reads one visit. */
  @Get(':visitId')
  @ApiProblems(404, 422)
  get(@IdParam('visitId') visitId: string): Promise<VisitDto> {
    return this.service.get(visitId);
  }

  /** Changes what is planned by a merge patch; a visit that is done or missed stays as it was. */
  @Patch(':visitId')
  @ApiBody({ type: PatchVisitDto })
  @ApiProblems(404, 409, 412, 422, 428)
  change(
    @IdParam('visitId') visitId: string,
    @IfMatch() version: number,
    @MergePatchBody() patch: Record<string, unknown>,
  ): Promise<VisitDto> {
    return this.service.change(visitId, version, patch);
  }
}
