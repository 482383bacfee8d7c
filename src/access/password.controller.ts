import { Body, Controller, Put } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { CurrentPrincipal } from '../people/current-principal.decorator.js';
import type { Principal } from '../people/principal.js';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { InParts } from '../shared/in-parts.decorator.js';
import { ChangePasswordDto, PasswordChangedDto } from './password.dto.js';
import { PasswordChangeService } from './password-change.service.js';

@ApiTags('signing in')
@Controller('password')
export class PasswordController {
  constructor(private readonly service: PasswordChangeService) {}

  /** Changes my password, ends my other sessions, and shows what tokens I have. Who guesses mine waits longer after each failure. */
  @Put()
  @InParts()
  @ApiProblems(422)
  change(
    @CurrentPrincipal() principal: Principal,
    @Body() body: ChangePasswordDto,
  ): Promise<PasswordChangedDto> {
    return this.service.change(principal, body);
  }
}
