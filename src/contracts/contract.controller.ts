import { Body, Controller, Get, Patch, Post, Query } from '@nestjs/common';
import { ApiBody, ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { IfMatch } from '../shared/if-match.decorator.js';
import { InParts } from '../shared/in-parts.decorator.js';
import { MergePatchBody } from '../shared/merge-patch-body.decorator.js';
import {
  ContractDto,
  ContractPageDto,
  ContractQueryDto,
  CreateContractDto,
  PatchContractDto,
  RenewContractDto,
} from './contract.dto.js';
import { ContractService } from './contract.service.js';

/** What the firm promised its clients, and for how much. */
@ApiTags('contracts')
@Controller('contracts')
export class ContractController {
  constructor(private readonly service: ContractService) {}

  /** Adds a contract. */
  @Post()
  @InParts()
  @ApiProblems(409, 422, 503)
  create(@Body() body: CreateContractDto): Promise<ContractDto> {
    return this.service.create(body);
  }

  /** Lists contracts, those that began last first. */
  @Get()
  @ApiProblems(422)
  list(@Query() query: ContractQueryDto): Promise<ContractPageDto> {
    return this.service.list(query);
  }

  /** Reads one contract. */
  @Get(':contractId')
  @ApiProblems(404, 422)
  get(@IdParam('contractId') contractId: string): Promise<ContractDto> {
    return this.service.get(contractId);
  }

  /** Corrects a contract by a merge patch; clocks that go by it are reckoned anew, and say so. */
  @Patch(':contractId')
  @InParts()
  @ApiBody({ type: PatchContractDto })
  @ApiProblems(404, 412, 422, 428, 503)
  change(
    @IdParam('contractId') contractId: string,
    @IfMatch() version: number,
    @MergePatchBody() patch: Record<string, unknown>,
  ): Promise<ContractDto> {
    return this.service.change(contractId, version, patch);
  }

  /** Makes the next contract from this one: from the day it ends, for as long, otherwise only as is said. */
  @Post(':contractId/renewal')
  @InParts()
  @ApiProblems(404, 409, 422, 503)
  renew(
    @IdParam('contractId') contractId: string,
    @Body() body: RenewContractDto,
  ): Promise<ContractDto> {
    return this.service.renew(contractId, body);
  }
}
