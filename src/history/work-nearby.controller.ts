import { Body, Controller, Get, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { WithdrawDto } from '../reports/withdrawal.dto.js';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { PageQueryDto } from '../shared/page.dto.js';
import { TellWorkNearbyDto, WorkNearbyDto, WorkNearbyPageDto } from './work-nearby.dto.js';
import { WorkNearbyService } from './work-nearby.service.js';

/** What others did near a site's parts: painters, a renovation. */
@ApiTags('sites')
@Controller('sites/:siteId/works-nearby')
export class WorkNearbyController {
  constructor(private readonly works: WorkNearbyService) {}

  /** Tells that others worked near rooms: for thirty days what is there is more likely to have failed. */
  @Post()
  @ApiProblems(404, 409, 422)
  tell(@IdParam('siteId') siteId: string, @Body() sent: TellWorkNearbyDto): Promise<WorkNearbyDto> {
    return this.works.tell(siteId, sent);
  }

  /** Lists what was told, also what was withdrawn. */
  @Get()
  @ApiProblems(404, 422)
  list(
    @IdParam('siteId') siteId: string,
    @Query() { after, limit }: PageQueryDto,
  ): Promise<WorkNearbyPageDto> {
    return this.works.list(siteId, after, limit);
  }

  /** Takes back what was not so: it stays in the list, and nothing goes by it any more. */
  @Post(':workId/withdraw')
  @ApiProblems(404, 409, 422)
  withdraw(
    @IdParam('siteId') siteId: string,
    @IdParam('workId') workId: string,
    @Body() said: WithdrawDto,
  ): Promise<WorkNearbyDto> {
    return this.works.withdraw(siteId, workId, said);
  }
}
