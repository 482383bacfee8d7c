import { Body, Controller, Get, HttpCode, Post, Put, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { PageQueryDto } from '../shared/page.dto.js';
import { AccountPageDto, ChangePasswordDto } from './account.dto.js';
import { AccountService } from './account.service.js';
import { AnonymiseService } from './anonymise.service.js';
import { CurrentPrincipal } from './current-principal.decorator.js';
import type { Principal } from './principal.js';
import { SecondStepService } from './second-step.service.js';

@ApiTags('signing in')
@Controller()
export class AccountController {
  constructor(
    private readonly service: AccountService,
    private readonly anonymiser: AnonymiseService,
    private readonly secondStep: SecondStepService,
  ) {}

  /** Lists who of the firm and of its clients can sign in. */
  @Get('accounts')
  @ApiProblems(422)
  list(@Query() query: PageQueryDto): Promise<AccountPageDto> {
    return this.service.list(query);
  }

  /** Ends somebody's sign-in at once, with all sessions and tokens. */
  @Post('accounts/:personId/end')
  @HttpCode(204)
  @ApiProblems(404, 409, 422)
  async end(@IdParam('personId') personId: string): Promise<void> {
    await this.service.end(personId);
  }

  /** Ends the second step of somebody who lost it, with all sessions; the person is told by mail. */
  @Post('accounts/:personId/second-step/end')
  @HttpCode(204)
  @ApiProblems(404, 409, 422)
  async endSecondStep(
    @CurrentPrincipal() principal: Principal,
    @IdParam('personId') personId: string,
  ): Promise<void> {
    await this.secondStep.endFor(principal, personId);
  }

  /** Forgets who a person is: sign-in, name and phone go, what was done stays. There is no way back. */
  @Post('accounts/:personId/anonymise')
  @HttpCode(204)
  @ApiProblems(404, 409, 422)
  async anonymise(@IdParam('personId') personId: string): Promise<void> {
    await this.anonymiser.anonymise(personId);
  }

  /** Changes my password, and ends my other sessions. */
  @Put('password')
  @HttpCode(204)
  @ApiProblems(422)
  async changePassword(
    @CurrentPrincipal() principal: Principal,
    @Body() body: ChangePasswordDto,
  ): Promise<void> {
    await this.service.changePassword(principal, body);
  }
}
