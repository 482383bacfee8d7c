import { Controller, Get, Header, Headers, Query, Res } from '@nestjs/common';
import { ApiHeader, ApiOkResponse, ApiResponse, ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { InParts } from '../shared/in-parts.decorator.js';
import type { FastifyReply } from 'fastify';
import { KitDto } from './kit.dto.js';
import { KitInWordsDto } from './kit-in-words.dto.js';
import { KitInWordsService } from './kit-in-words.service.js';
import { type Kit, KitService } from './kit.service.js';
import { WalkDto, WalkQueryDto } from './walk.dto.js';
import { WalkService } from './walk.service.js';

/** The answers come written out, from the thread that worked them out. */
const JSON_TYPE = 'application/json; charset=utf-8';

@ApiTags('tickets')
@Controller('tickets/:ticketId')
export class WalkController {
  constructor(
    private readonly walk: WalkService,
    private readonly kits: KitService,
    private readonly kitsInWords: KitInWordsService,
  ) {}

  /** Plans what to do next on site: the next step, the plan from there, and the parts to carry. */
  @Get('walk')
  @InParts()
  @Header('content-type', JSON_TYPE)
  @ApiOkResponse({ type: WalkDto })
  @ApiProblems(404, 422, 503)
  planWalk(@IdParam('ticketId') ticketId: string, @Query() query: WalkQueryDto): Promise<string> {
    return this.walk.plan(ticketId, query);
  }

  /** Reads all that a page needs to go on with the ticket by itself, also with no signal. */
  @Get('kit')
  @InParts()
  @Header('content-type', JSON_TYPE)
  @ApiHeader({
    name: 'If-None-Match',
    required: false,
    description: 'The ETag of the kit at hand.',
  })
  @ApiOkResponse({ type: KitDto })
  @ApiResponse({ status: 304, description: 'The kit at hand is still the one.' })
  @ApiProblems(404, 422, 503)
  async kit(
    @IdParam('ticketId') ticketId: string,
    @Headers('if-none-match') known: string | undefined,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<string> {
    return answerKit(reply, await this.kits.kit(ticketId, known));
  }

  /** Reads what is known of the ticket in words, which is all there is of a site that nobody has drawn. */
  @Get('kit-in-words')
  @ApiProblems(404)
  kitInWords(@IdParam('ticketId') ticketId: string): Promise<KitInWordsDto> {
    return this.kitsInWords.kit(ticketId);
  }
}

function answerKit(reply: FastifyReply, { etag, json }: Kit): string {
  void reply.header('etag', etag).status(json === null ? 304 : 200);
  return json ?? '';
}
