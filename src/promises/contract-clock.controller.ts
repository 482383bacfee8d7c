import { Controller, Get } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { InParts } from '../shared/in-parts.decorator.js';
import { ContractClocksDto } from './ticket-promise.dto.js';
import { TicketPromiseService } from './ticket-promise.service.js';

@ApiTags('contracts')
@Controller('contracts/:contractId/clocks')
export class ContractClockController {
  constructor(private readonly service: TicketPromiseService) {}

  /** Tells the clocks of the tickets that went by the contract, newest first, line by line. */
  @Get()
  @InParts()
  @ApiProblems(404, 422, 503)
  list(@IdParam('contractId') contractId: string): Promise<ContractClocksDto> {
    return this.service.clocksOfContract(contractId);
  }
}
