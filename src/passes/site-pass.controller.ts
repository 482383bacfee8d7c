import { Controller, Get, HttpCode, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { NewSitePassDto, SitePassListDto } from './site-pass.dto.js';
import { SitePassService } from './site-pass.service.js';

@ApiTags('site passes')
@Controller()
export class SitePassController {
  constructor(private readonly service: SitePassService) {}

  /** Makes a site's pass, a link and QR code for the poster in the office, in place of the one before. */
  @Post('sites/:siteId/passes')
  @ApiProblems(404, 422)
  issue(@IdParam('siteId') siteId: string): Promise<NewSitePassDto> {
    return this.service.issue(siteId);
  }

  /** Lists a site's passes. */
  @Get('sites/:siteId/passes')
  @ApiProblems(404, 422)
  async list(@IdParam('siteId') siteId: string): Promise<SitePassListDto> {
    return { items: await this.service.list(siteId) };
  }

  /** Ends a pass at once; its link says so politely from then on. */
  @Post('passes/:passId/end')
  @HttpCode(204)
  @ApiProblems(404, 422)
  async end(@IdParam('passId') passId: string): Promise<void> {
    await this.service.end(passId);
  }
}
