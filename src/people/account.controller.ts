import { Controller, Get, HttpCode, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { PageQueryDto } from '../shared/page.dto.js';
import { AccountPageDto } from './account.dto.js';
import { AccountService } from './account.service.js';
import { AnonymiseService } from './anonymise.service.js';

@ApiTags('signing in')
@Controller('accounts')
export class AccountController {
  constructor(
    private readonly service: AccountService,
    private readonly anonymiser: AnonymiseService,
  ) {}

  /** Lists who of the firm and of its clients can sign in. */
  @Get()
  @ApiProblems(422)
  list(@Query() query: PageQueryDto): Promise<AccountPageDto> {
    return this.service.list(query);
  }

  /** Ends somebody's sign-in at once, with all sessions and tokens. */
  @Post(':personId/end')
  @HttpCode(204)
  @ApiProblems(404, 409, 422)
  async end(@IdParam('personId') personId: string): Promise<void> {
    await this.service.end(personId);
  }

  /** Forgets who a person is: sign-in, name and phone go, what was done stays. There is no way back. */
  @Post(':personId/anonymise')
  @HttpCode(204)
  @ApiProblems(404, 409, 422)
  async anonymise(@IdParam('personId') personId: string): Promise<void> {
    await this.anonymiser.anonymise(personId);
  }
}
