import { Body, Controller, HttpCode, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { InParts } from '../shared/in-parts.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { CurrentPrincipal } from '../people/current-principal.decorator.js';
import type { Principal } from '../people/principal.js';
import {
  BeginSecondStepDto,
  ConfirmSecondStepDto,
  EndSecondStepDto,
  NewSecondStepDto,
  RecoveryCodesDto,
} from './second-step.dto.js';
import { SecondStepService } from './second-step.service.js';

@ApiTags('signing in')
@Controller()
export class SecondStepController {
  constructor(private readonly service: SecondStepService) {}

  /** Makes a secret for my phone's app. Who guesses my password waits longer after each failure. */
  @Post('second-step')
  @InParts()
  @ApiProblems(409, 422)
  begin(
    @CurrentPrincipal() principal: Principal,
    @Body() { password }: BeginSecondStepDto,
  ): Promise<NewSecondStepDto> {
    return this.service.begin(principal, password);
  }

  /** Turns the second step on by a first code. Who guesses it waits longer after each failure. */
  @Post('second-step/confirm')
  @InParts()
  @HttpCode(200)
  @ApiProblems(409, 422)
  async confirm(
    @CurrentPrincipal() principal: Principal,
    @Body() { code }: ConfirmSecondStepDto,
  ): Promise<RecoveryCodesDto> {
    return { recoveryCodes: await this.service.confirm(principal, code) };
  }

  /** Turns the second step off. Who guesses my password or a code waits longer after each failure. */
  @Post('second-step/end')
  @InParts()
  @HttpCode(204)
  @ApiProblems(409, 422)
  async end(
    @CurrentPrincipal() principal: Principal,
    @Body() { password, code }: EndSecondStepDto,
  ): Promise<void> {
    await this.service.end(principal, password, code);
  }

  /** Ends the second step of somebody who lost it, with all sessions; the person is told by mail. */
  @Post('accounts/:personId/second-step/end')
  @HttpCode(204)
  @ApiProblems(404, 409, 422)
  async endFor(
    @CurrentPrincipal() principal: Principal,
    @IdParam('personId') personId: string,
  ): Promise<void> {
    await this.service.endFor(principal, personId);
  }
}
