import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { InParts } from '../shared/in-parts.decorator.js';
import { ShouldCostDto, ShouldCostQueryDto } from './should-cost.dto.js';
import { ShouldCostService } from './should-cost.service.js';

@ApiTags('contracts')
@Controller()
export class ShouldCostController {
  constructor(private readonly service: ShouldCostService) {}

  /** Says what the next year of a contract's sites is expected to take, with intervals, against its fee. */
  @Get('contracts/:contractId/should-cost')
  @InParts()
  @ApiProblems(404, 422, 503)
  ofContract(@IdParam('contractId') contractId: string): Promise<ShouldCostDto> {
    return this.service.ofContract(contractId);
  }

  /** Says the same of some sites, whatever contract covers them. */
  @Get('should-cost')
  @InParts()
  @ApiProblems(404, 422, 503)
  ofSites(@Query() query: ShouldCostQueryDto): Promise<ShouldCostDto> {
    return this.service.ofSites(query);
  }
}
