import { Body, Controller, Delete, Get, HttpCode, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { ApiTokenListDto, CreateApiTokenDto, NewApiTokenDto } from './api-token.dto.js';
import { ApiTokenService } from './api-token.service.js';
import { CurrentPrincipal } from '../people/current-principal.decorator.js';
import { personIdOf, type Principal } from '../people/principal.js';

@ApiTags('tokens')
@Controller('tokens')
export class ApiTokenController {
  constructor(private readonly service: ApiTokenService) {}

  /** Makes a token for a program that acts as me; it is shown this once. At most 50 a person: a conflict (409) then. */
  @Post()
  @ApiProblems(409, 422)
  create(
    @CurrentPrincipal() principal: Principal,
    @Body() body: CreateApiTokenDto,
  ): Promise<NewApiTokenDto> {
    return this.service.create(personIdOf(principal), body);
  }

  /** Lists tokens: an owner sees everybody's, others their own. */
  @Get()
  async list(@CurrentPrincipal() principal: Principal): Promise<ApiTokenListDto> {
    return { items: await this.service.list(principal) };
  }

  /** Revokes a token at once. */
  @Delete(':tokenId')
  @HttpCode(204)
  @ApiProblems(404, 422)
  async revoke(
    @CurrentPrincipal() principal: Principal,
    @IdParam('tokenId') tokenId: string,
  ): Promise<void> {
    await this.service.revoke(principal, tokenId);
  }
}
