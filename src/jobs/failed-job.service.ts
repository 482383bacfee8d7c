import { Injectable } from '@nestjs/common';
import type { FailedJobsDto } from './failed-job.dto.js';
import { JobRepository } from './job.repository.js';

/** More than these were no list but a breakdown. */
const SHOWN = 200;

/** What was tried as often as it may be, and not done. */
@Injectable()
export class FailedJobService {
  constructor(private readonly repository: JobRepository) {}

  async list(): Promise<FailedJobsDto> {
    return { items: await this.repository.listFailed(SHOWN) };
  }
}
