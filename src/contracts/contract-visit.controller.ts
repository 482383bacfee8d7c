import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { InParts } from '../shared/in-parts.decorator.js';
import { ContractVisitQueryDto, ContractVisitsDto } from './contract-visit.dto.js';
import { ContractVisitService } from './contract-visit.service.js';

@ApiTags('contracts')
@Controller('contracts/:contractId')
export class ContractVisitController {
  constructor(private readonly service: ContractVisitService) {}

  /** Lists the visits that the contract promises, each with whether it was made, is due, or is owed. */
  @Get('visits')
  @InParts()
  @ApiProblems(404, 422, 503)
  visits(
    @IdParam('contractId') contractId: string,
    @Query() query: ContractVisitQueryDto,
  ): Promise<ContractVisitsDto> {
    return this.service.list(contractId, query);
  }
}
