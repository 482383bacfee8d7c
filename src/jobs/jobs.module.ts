import { Global, Module } from '@nestjs/common';
import { FailedJobController } from './failed-job.controller.js';
import { FailedJobService } from './failed-job.service.js';
import { JobRepository } from './job.repository.js';
import { JobService } from './job.service.js';
import { RetentionService } from './retention.service.js';

@Global()
@Module({
  controllers: [FailedJobController],
  providers: [FailedJobService, JobRepository, JobService, RetentionService],
  exports: [JobService, RetentionService],
})
export class JobsModule {}
