import { Controller, Get, Query, Req, Res } from '@nestjs/common';
import { ApiOkResponse, ApiTags } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { CurrentPrincipal } from '../people/current-principal.decorator.js';
import type { Principal } from '../people/principal.js';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { ChangeQueryDto, ToldChangesDto } from './change.dto.js';
import { ChangeService } from './change.service.js';
import { openStream } from './open-stream.js';

@ApiTags('changes')
@Controller('changes')
export class ChangeController {
  constructor(private readonly service: ChangeService) {}

  /**
   * Tells ids and kinds of what changed. Asked for with `Accept: text/event-stream` it stays open and tells each change as
   * it happens (`change`), or that something may have been missed (`missed`); `Last-Event-ID` goes on where one was.
   */
  @Get()
  @ApiOkResponse({ type: ToldChangesDto })
  @ApiProblems(422, 503)
  async changes(
    @CurrentPrincipal() { firmId }: Principal,
    @Query() { after }: ChangeQueryDto,
    @Req() request: FastifyRequest,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    const isStream = request.headers.accept?.includes('text/event-stream') ?? false;
    // Answered here in both cases: what the framework sends for a route would come after a stream's own.
    if (isStream) await openStream(this.service, { firmId, request, reply });
    else await reply.send(await this.service.since(firmId, after));
  }
}
