import { Body, Controller, Get, Patch, Post, Query } from '@nestjs/common';
import { ApiBody, ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { IfMatch } from '../shared/if-match.decorator.js';
import { MergePatchBody } from '../shared/merge-patch-body.decorator.js';
import { CreateSiteDto, PatchSiteDto, SiteDto, SitePageDto, SiteQueryDto } from './site.dto.js';
import { SiteService } from './site.service.js';

@ApiTags('sites')
@Controller('sites')
export class SiteController {
  constructor(private readonly service: SiteService) {}

  /** Adds a site of a client. */
  @Post()
  @ApiProblems(409, 422)
  create(@Body() body: CreateSiteDto): Promise<SiteDto> {
    return this.service.create(body);
  }

  /** Lists the firm's sites by name. */
  @Get()
  @ApiProblems(422)
  list(@Query() query: SiteQueryDto): Promise<SitePageDto> {
    return this.service.list(query);
  }

  /** Reads one site. */
  @Get(':id')
  @ApiProblems(404, 422)
  get(@IdParam('id') id: string): Promise<SiteDto> {
    return this.service.get(id);
  }

  /** Changes a site by a merge patch; its as-built record has routes of its own. */
  @Patch(':id')
  @ApiBody({ type: PatchSiteDto })
  @ApiProblems(404, 412, 422, 428)
  change(
    @IdParam('id') id: string,
    @IfMatch() version: number,
    @MergePatchBody() patch: Record<string, unknown>,
  ): Promise<SiteDto> {
    return this.service.change(id, version, patch);
  }
}
