import { Body, Controller, Get, HttpCode, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { PageQueryDto } from '../shared/page.dto.js';
import { CurrentPrincipal } from './current-principal.decorator.js';
import { MailPageDto } from './mail.dto.js';
import { MailService } from './mail.service.js';
import { InvitedDto, InviteDto, PasswordFromLinkDto, RequestResetDto } from './mailed-link.dto.js';
import { MailedLinkService } from './mailed-link.service.js';
import type { Principal } from './principal.js';
import type { RecordedRequest } from './record.js';
import { Recorded } from './recorded-request.decorator.js';

@ApiTags('signing in')
@Controller()
export class MailedLinkController {
  constructor(
    private readonly links: MailedLinkService,
    private readonly mails: MailService,
  ) {}

  /** Invites somebody of the firm, or of a client, by a mailed link. */
  @Post('invitations')
  @ApiProblems(409, 422)
  async invite(
    @CurrentPrincipal() { firmId }: Principal,
    @Body() body: InviteDto,
  ): Promise<InvitedDto> {
    return { personId: await this.links.invite(firmId, body) };
  }

  /** Asks for a link to choose a new password; the answer is the same whoever asks. */
  @Post('password-resets')
  @HttpCode(202)
  @ApiProblems(422, 429)
  requestReset(@Body() { email }: RequestResetDto): void {
    this.links.requestReset(email);
  }

  /** Chooses a password by a link that was mailed. */
  @Post('password-from-link')
  @HttpCode(204)
  @ApiProblems(401, 422, 429)
  async setPassword(
    @Body() body: PasswordFromLinkDto,
    @Recorded() recorded: RecordedRequest,
  ): Promise<void> {
    await this.links.setPassword(body, recorded);
  }

  /** Lists mails: without a mail server they wait here for the owner to pass them on. */
  @Get('outbox')
  @ApiProblems(422)
  outbox(@Query() query: PageQueryDto): Promise<MailPageDto> {
    return this.mails.list(query);
  }
}
