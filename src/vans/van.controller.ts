import { Body, Controller, Get, Put } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { CurrentPrincipal } from '../people/current-principal.decorator.js';
import type { Principal } from '../people/principal.js';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { IfMatch } from '../shared/if-match.decorator.js';
import { VanDto, VanFieldsDto } from './van.dto.js';
import { VanService } from './van.service.js';

@ApiTags('plans')
@Controller('people/:personId/van')
export class VanController {
  constructor(private readonly service: VanService) {}

  /** Reads which parts are in a technician's van; a technician reads their own. */
  @Get()
  @ApiProblems(404, 422)
  get(
    @CurrentPrincipal() principal: Principal,
    @IdParam('personId') personId: string,
  ): Promise<VanDto> {
    return this.service.get(principal, personId);
  }

  /** Says which parts are in it; whole, in place of what was read. */
  @Put()
  @ApiProblems(404, 412, 422, 428)
  put(
    @CurrentPrincipal() principal: Principal,
    @IdParam('personId') personId: string,
    @IfMatch() version: number,
    @Body() fields: VanFieldsDto,
  ): Promise<VanDto> {
    return this.service.put(principal, { personId, version }, fields);
  }
}
