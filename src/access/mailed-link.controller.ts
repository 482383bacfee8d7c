import { Body, Controller, HttpCode, Post, Res } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { DeviceService } from './device.service.js';
import { InvitedDto, InviteDto, PasswordFromLinkDto, RequestResetDto } from './mailed-link.dto.js';
import { MailedLinkService } from './mailed-link.service.js';
import { PasswordChangedDto } from './password.dto.js';
import type { AuditedRequest } from '../audit/audited-request.js';
import { Audited } from '../audit/audited.decorator.js';

@ApiTags('signing in')
@Controller()
export class MailedLinkController {
  constructor(
    private readonly links: MailedLinkService,
    private readonly devices: DeviceService,
  ) {}

  /** Invites somebody of the firm, or of a client, by a mailed link. */
  @Post('invitations')
  @ApiProblems(409, 422)
  invite(@Body() body: InviteDto): Promise<InvitedDto> {
    return this.links.invite(body);
  }

  /** Asks for a link to choose a new password; the answer is the same whoever asks. */
  @Post('password-resets')
  @HttpCode(202)
  @ApiProblems(422, 429)
  requestReset(@Body() { email }: RequestResetDto): void {
    this.links.requestReset(email);
  }

  /** Chooses a password by a link that was mailed; from this browser one can then sign in, however many others try to. */
  @Post('password-from-link')
  @HttpCode(200)
  @ApiProblems(401, 422, 429)
  async setPassword(
    @Body() body: PasswordFromLinkDto,
    @Audited() audited: AuditedRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<PasswordChangedDto> {
    const { email, changed } = await this.links.setPassword(body, audited);
    this.devices.rememberAnew(reply, email);
    return changed;
  }
}
