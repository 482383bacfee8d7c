import { Controller, Get, Header, Headers, Res } from '@nestjs/common';
import { ApiOkResponse, ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { InParts } from '../shared/in-parts.decorator.js';
import { LocationDto } from './location.dto.js';
import { LocationService } from './location.service.js';

/** The answer comes written out, from the thread that worked it out. */
const JSON_TYPE = 'application/json; charset=utf-8';

@ApiTags('tickets')
@Controller('tickets/:ticketId')
export class LocationController {
  constructor(private readonly location: LocationService) {}

  /** Works out where the trouble lies. */
  @Get('location')
  @InParts()
  @Header('content-type', JSON_TYPE)
  @ApiOkResponse({ type: LocationDto })
  @ApiProblems(404, 422, 503)
  async locate(
    @IdParam('ticketId') ticketId: string,
    @Headers('accept-encoding') accepted: string | undefined,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<Buffer> {
    return (await this.location.locate(ticketId)).body(reply, accepted);
  }
}
