import { Body, Controller, Get, Patch, Post, Query } from '@nestjs/common';
import { ApiBody, ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { IfMatch } from '../shared/if-match.decorator.js';
import { CurrentPrincipal } from '../people/current-principal.decorator.js';
import type { Principal } from '../people/principal.js';
import { InParts } from '../shared/in-parts.decorator.js';
import { MergePatchBody } from '../shared/merge-patch-body.decorator.js';
import {
  CreateVisitDto,
  PatchVisitDto,
  VisitDto,
  VisitPageDto,
  VisitQueryDto,
} from './visit.dto.js';
import { VisitBookingService } from './visit-booking.service.js';
import { VisitService } from './visit.service.js';

@ApiTags('visits')
@Controller('visits')
export class VisitController {
  constructor(
    private readonly service: VisitService,
    private readonly booking: VisitBookingService,
  ) {}

  /**
   * Plans a visit. A technician takes tickets: a call-out, by themselves. What may be a mistake is asked about: a public holiday, a
   * closed day, hours that were not agreed (422), a time that has gone by, somebody who is elsewhere then (409). `confirm` of the
   * answer names what is taken once it is sent in `confirmed`.
   */
  @Post()
  @InParts()
  @ApiProblems(409, 422, 503)
  create(
    @CurrentPrincipal() principal: Principal,
    @Body() body: CreateVisitDto,
  ): Promise<VisitDto> {
    return this.booking.create(principal, body);
  }

  /** Lists visits by day. */
  @Get()
  @ApiProblems(422)
  list(@Query() query: VisitQueryDto): Promise<VisitPageDto> {
    return this.service.list(query);
  }

  /** Reads one visit. */
  @Get(':visitId')
  @ApiProblems(404, 422)
  get(@IdParam('visitId') visitId: string): Promise<VisitDto> {
    return this.service.get(visitId);
  }

  /** Changes what is planned by a merge patch: a technician, that they take it. A visit that is done or missed stays as it was. */
  @Patch(':visitId')
  @InParts()
  @ApiBody({ type: PatchVisitDto })
  @ApiProblems(404, 409, 412, 422, 428, 503)
  change(
    @IdParam('visitId') visitId: string,
    @CurrentPrincipal() principal: Principal,
    @IfMatch() version: number,
    @MergePatchBody() patch: Record<string, unknown>,
  ): Promise<VisitDto> {
    return this.booking.change(visitId, version, patch, principal);
  }
}
