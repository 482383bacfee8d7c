import { Body, Controller, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { ReportDto } from '../reports/report.dto.js';
import { InParts } from '../shared/in-parts.decorator.js';
import { ReportAnswerDto } from './report-answer.dto.js';
import { ReportAnswerService } from './report-answer.service.js';

@ApiTags('tickets')
@Controller('sites/:siteId/reports')
export class ReportController {
  constructor(private readonly service: ReportAnswerService) {}

  /** Takes what somebody says about a site's rooms: opens a ticket, or joins the open ones. */
  @Post()
  @InParts()
  @ApiProblems(404, 409, 422)
  report(@IdParam('siteId') siteId: string, @Body() report: ReportDto): Promise<ReportAnswerDto> {
    return this.service.report(siteId, report);
  }
}
