import { Body, Controller, Delete, Get, HttpCode, Post, Put, Req, Res } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { UnauthenticatedError } from '../shared/domain-error.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { DeviceService } from './device.service.js';
import { CredentialService } from './credential.service.js';
import { CurrentPrincipal } from '../people/current-principal.decorator.js';
import type { Principal } from '../people/principal.js';
import type { AuditedRequest } from '../audit/audited-request.js';
import { Audited } from '../audit/audited.decorator.js';
import { ChooseLanguageDto, SessionListDto, SignedInDto, SignInDto } from './session.dto.js';
import { SessionService } from './session.service.js';
import { SignInService } from './sign-in.service.js';

@ApiTags('signing in')
@Controller()
export class SessionController {
  constructor(
    private readonly sessions: SessionService,
    private readonly signIns: SignInService,
    private readonly credentials: CredentialService,
    private readonly devices: DeviceService,
  ) {}

  /** Signs in with e-mail and password; the session is a cookie that scripts cannot read. */
  @Post('session')
  @HttpCode(200)
  @ApiProblems(401, 409, 422, 429)
  async signIn(
    @Body() body: SignInDto,
    @Audited() audited: AuditedRequest,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<SignedInDto> {
    const origin = { ...originOf(request), device: this.devices.find(request, body.email) };
    const { secret, signedIn } = await this.signIns.signIn(body, origin, audited);
    const old = this.credentials.read(request);
    if (old?.kind === 'session') await this.sessions.replace(old.secret);
    this.credentials.setCookie(reply, secret, signedIn.endsAt);
    this.devices.remember(request, reply, body.email);
    return signedIn;
  }

  /** Says who is signed in, and the token that changes must carry. */
  @Get('session')
  current(
    @CurrentPrincipal() principal: Principal,
    @Req() request: FastifyRequest,
  ): Promise<SignedInDto> {
    const credential = this.credentials.read(request);
    if (credential === undefined) throw new UnauthenticatedError();
    return this.sessions.current(principal, credential.secret);
  }

  /** Chooses the language in which pages are shown to me, wherever I sign in. */
  @Put('session/language')
  @HttpCode(204)
  @ApiProblems(422)
  async chooseLanguage(
    @CurrentPrincipal() principal: Principal,
    @Body() { language }: ChooseLanguageDto,
  ): Promise<void> {
    await this.sessions.chooseLanguage(principal, language);
  }

  /** Signs out. */
  @Delete('session')
  @HttpCode(204)
  async signOut(
    @CurrentPrincipal() principal: Principal,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<void> {
    await this.sessions.end(principal, principal.credentialId);
    this.credentials.clearCookie(reply);
  }

  /** Lists my sessions. */
  @Get('sessions')
  async list(@CurrentPrincipal() principal: Principal): Promise<SessionListDto> {
    return { items: await this.sessions.list(principal) };
  }

  /** Ends one of my sessions. */
  @Delete('sessions/:sessionId')
  @HttpCode(204)
  @ApiProblems(404, 422)
  async end(
    @CurrentPrincipal() principal: Principal,
    @IdParam('sessionId') sessionId: string,
  ): Promise<void> {
    await this.sessions.end(principal, sessionId);
  }

  /** Ends all of my sessions but this one. */
  @Delete('sessions')
  @HttpCode(204)
  async endOthers(@CurrentPrincipal() principal: Principal): Promise<void> {
    await this.sessions.endOthers(principal);
  }
}

function originOf({ address, headers }: FastifyRequest) {
  return { address, userAgent: headers['user-agent'] ?? '' };
}
