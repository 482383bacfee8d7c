import { Body, Controller, Get, HttpCode, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Audited } from '../audit/audited.decorator.js';
import type { AuditedRequest } from '../audit/audited-request.js';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { FirstOwnerDto, FirstStartDto } from './first-start.dto.js';
import { FirstStartService } from './first-start.service.js';

@ApiTags('signing in')
@Controller('first-start')
export class FirstStartController {
  constructor(private readonly service: FirstStartService) {}

  /** Says whether the first owner is still to be made. */
  @Get()
  async state(): Promise<FirstStartDto> {
    return { isOpen: await this.service.isOpen() };
  }

  /** Makes the first owner, by the code in the service's log, once and while nobody can sign in. */
  @Post()
  @HttpCode(204)
  @ApiProblems(401, 422, 429)
  use(@Body() body: FirstOwnerDto, @Audited() audited: AuditedRequest): Promise<void> {
    return this.service.use(body, audited);
  }
}
