import { Controller, Get } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { SiteCoverDto } from './site-cover.dto.js';
import { SiteCoverService } from './site-cover.service.js';

@ApiTags('contracts')
@Controller('sites/:siteId')
export class SiteCoverController {
  constructor(private readonly service: SiteCoverService) {}

  /** Says which contracts cover a site and when, with the gaps between them and where they overlap. */
  @Get('cover')
  @ApiProblems(404, 422)
  cover(@IdParam('siteId') siteId: string): Promise<SiteCoverDto> {
    return this.service.cover(siteId);
  }
}
