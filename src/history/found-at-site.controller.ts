import { Controller, Get } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { FoundAtSiteListDto } from './found-at-site.dto.js';
import { HistoryService } from './history.service.js';

@ApiTags('sites')
@Controller('sites/:siteId/findings')
export class FoundAtSiteController {
  constructor(private readonly history: HistoryService) {}

  /** Reads what was ever found at fault at a site, by place: on tickets that are open too. */
  @Get()
  @ApiProblems(404, 422)
  list(@IdParam('siteId') siteId: string): Promise<FoundAtSiteListDto> {
    return this.history.foundAt(siteId);
  }
}
