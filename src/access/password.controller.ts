import { Body, Controller, HttpCode, Put } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { CurrentPrincipal } from '../people/current-principal.decorator.js';
import type { Principal } from '../people/principal.js';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { ChangePasswordDto } from './password.dto.js';
import { PasswordChangeService } from './password-change.service.js';

@ApiTags('signing in')
@Controller('password')
export class PasswordController {
  constructor(private readonly service: PasswordChangeService) {}

  /** Changes my password, and ends my other sessions. */
  @Put()
  @HttpCode(204)
  @ApiProblems(422)
  async change(
    @CurrentPrincipal() principal: Principal,
    @Body() body: ChangePasswordDto,
  ): Promise<void> {
    await this.service.change(principal, body);
  }
}
