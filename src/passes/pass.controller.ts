import { Body, Controller, Get, HttpCode, Post, Res } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { InParts } from '../shared/in-parts.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { CredentialService } from '../access/credential.service.js';
import { CurrentPrincipal } from '../people/current-principal.decorator.js';
import {
  PassAnswerDto,
  PassLooksDto,
  PassReportAnswerDto,
  PassReportDto,
  PassSessionDto,
  PassSiteDto,
  PassTicketDto,
  PassWorkNearbyDto,
  ShowPassDto,
} from './pass.dto.js';
import { WorkNearbyDto } from '../history/work-nearby.dto.js';
import { PassSessionService } from './pass-session.service.js';
import { PassService } from './pass.service.js';
import { type Principal, siteIdOf } from '../people/principal.js';
import { SignatureDto, SignDto } from './signature.dto.js';
import { SignatureService } from './signature.service.js';

/** For whoever holds a site's link: the pass says which site. */
@ApiTags('site passes')
@Controller('pass')
export class PassController {
  constructor(
    private readonly sessions: PassSessionService,
    private readonly passes: PassService,
    private readonly signatures: SignatureService,
    private readonly credentials: CredentialService,
  ) {}

  /** Exchanges a pass for a cookie that lasts one sitting. */
  @Post('session')
  @HttpCode(200)
  @ApiProblems(401, 410, 422, 429)
  async open(
    @Body() { pass }: ShowPassDto,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<PassSessionDto> {
    const { secret, session } = await this.sessions.open(pass);
    this.credentials.setCookie(reply, secret, session.endsAt, this.credentials.passCookieName);
    return session;
  }

  /** Reads the site: rooms, open tickets, when somebody comes, what can be signed for. */
  @Get('site')
  @ApiProblems(410)
  site(@CurrentPrincipal() principal: Principal): Promise<PassSiteDto> {
    return this.passes.site(siteIdOf(principal));
  }

  /** Reports rooms: opens a ticket or joins the open ones. */
  @Post('reports')
  @InParts()
  @ApiProblems(409, 410, 422)
  report(
    @CurrentPrincipal() principal: Principal,
    @Body() report: PassReportDto,
  ): Promise<PassReportAnswerDto> {
    return this.passes.report(siteIdOf(principal), report);
  }

  /** Tells that others worked near rooms, such as painters. */
  @Post('works-nearby')
  @ApiProblems(409, 410, 422)
  tellWorkNearby(
    @CurrentPrincipal() principal: Principal,
    @Body() work: PassWorkNearbyDto,
  ): Promise<WorkNearbyDto> {
    return this.passes.tellWorkNearby(siteIdOf(principal), work);
  }

  /** Reads an open ticket, with what is worth looking at. */
  @Get('tickets/:ticketId')
  @InParts()
  @ApiProblems(404, 410, 422)
  ticket(@IdParam('ticketId') ticketId: string): Promise<PassTicketDto> {
    return this.passes.ticket(ticketId);
  }

  /** Tells what came of a suggested check. */
  @Post('tickets/:ticketId/reports')
  @InParts()
  @ApiProblems(404, 409, 410, 422)
  reportTicket(
    @IdParam('ticketId') ticketId: string,
    @Body() report: PassReportDto,
  ): Promise<PassTicketDto> {
    return this.passes.reportTicket(ticketId, report);
  }

  /** Answers one of the questions that may spare the visit. */
  @Post('tickets/:ticketId/answers')
  @InParts()
  @ApiProblems(404, 409, 410, 422)
  answer(
    @IdParam('ticketId') ticketId: string,
    @Body() answer: PassAnswerDto,
  ): Promise<PassTicketDto> {
    return this.passes.answer(ticketId, answer);
  }

  /** Tells what somebody saw: a switch, a plug, the volume in a room, a setting of the head-end. */
  @Post('tickets/:ticketId/looks')
  @InParts()
  @ApiProblems(404, 409, 410, 422)
  look(@IdParam('ticketId') ticketId: string, @Body() looks: PassLooksDto): Promise<PassTicketDto> {
    return this.passes.look(ticketId, looks);
  }

  /** Signs for the work of a visit that is done. */
  @Post('visits/:visitId/signatures')
  @ApiProblems(404, 409, 410, 422)
  sign(
    @CurrentPrincipal() principal: Principal,
    @IdParam('visitId') visitId: string,
    @Body() body: SignDto,
  ): Promise<SignatureDto> {
    return this.signatures.sign(principal, visitId, body);
  }
}
