import { Body, Controller, Get, HttpCode, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { CurrentPrincipal } from '../people/current-principal.decorator.js';
import type { Principal } from '../people/principal.js';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { InParts } from '../shared/in-parts.decorator.js';
import {
  CreateNoticeWishDto,
  NewNoticeWishDto,
  NoticeListDto,
  NoticeWishListDto,
  WayOutDto,
} from './notice-wish.dto.js';
import { NoticeWishService } from './notice-wish.service.js';

/** Who is told of what. */
@ApiTags('notices')
@Controller('notice-wishes')
export class NoticeWishController {
  constructor(private readonly service: NoticeWishService) {}

  /** Asks to be told by mail, or for a system of the firm by webhook, signed as the Standard Webhooks scheme has it. */
  @Post()
  @ApiProblems(403, 404, 409, 422)
  create(
    @CurrentPrincipal() principal: Principal,
    @Body() body: CreateNoticeWishDto,
  ): Promise<NewNoticeWishDto> {
    return this.service.create(principal, body);
  }

  /** Lists what one asked for; owners see everybody’s. The 500 newest. */
  @Get()
  async list(@CurrentPrincipal() principal: Principal): Promise<NoticeWishListDto> {
    return { items: await this.service.list(principal) };
  }

  /** Lists what was told, and what could not be. */
  @Get(':wishId/notices')
  @ApiProblems(404, 422)
  async listNotices(
    @CurrentPrincipal() principal: Principal,
    @IdParam('wishId') id: string,
  ): Promise<NoticeListDto> {
    return { items: await this.service.listNotices(principal, id) };
  }

  /** Ends it at once; what is still to be sent is not sent. */
  @Post(':wishId/end')
  @HttpCode(204)
  @ApiProblems(404, 422)
  async end(
    @CurrentPrincipal() principal: Principal,
    @IdParam('wishId') id: string,
  ): Promise<void> {
    await this.service.end(principal, id);
  }

  /** The way out that every mail shows; mail programs may ask for it by themselves (RFC 8058). */
  @Post('way-out')
  @HttpCode(204)
  @InParts()
  @ApiProblems(404, 422)
  async leave(@Query() { key }: WayOutDto): Promise<void> {
    await this.service.leave(key);
  }
}
