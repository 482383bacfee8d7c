import { Body, Controller, Get, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { CurrentPrincipal } from '../people/current-principal.decorator.js';
import type { Principal } from '../people/principal.js';
import { SignatureDto, SignatureListDto, SignDto } from './signature.dto.js';
import { SignatureService } from './signature.service.js';

@ApiTags('visits')
@Controller('visits/:visitId/signatures')
export class SignatureController {
  constructor(private readonly service: SignatureService) {}

  /** Signs for the work of a visit that is done. */
  @Post()
  @ApiProblems(404, 409, 422)
  sign(
    @CurrentPrincipal() principal: Principal,
    @IdParam('visitId') visitId: string,
    @Body() body: SignDto,
  ): Promise<SignatureDto> {
    return this.service.sign(principal, visitId, body);
  }

  /** Lists who signed for a visit. */
  @Get()
  @ApiProblems(404, 422)
  async list(@IdParam('visitId') visitId: string): Promise<SignatureListDto> {
    return { items: await this.service.list(visitId) };
  }
}
