import { Controller, Get } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { FailedJobsDto } from './failed-job.dto.js';
import { FailedJobService } from './failed-job.service.js';

@ApiTags('jobs')
@Controller('failed-jobs')
export class FailedJobController {
  constructor(private readonly service: FailedJobService) {}

  /** What was to be done for the firm and failed for good, newest first, at most 200; kept for four weeks. */
  @Get()
  list(): Promise<FailedJobsDto> {
    return this.service.list();
  }
}
