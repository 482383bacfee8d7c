import { Injectable } from '@nestjs/common';
import { SafeRepeatService } from '../database/safe-repeat.service.js';
import type { Job } from './job-loop.service.js';
import { JobService } from './job.service.js';

const DAY_SECONDS = 24 * 60 * 60;

/** What is done for each firm once a day: forgetting, and learning of another day without a fault. */
@Injectable()
export class RetentionService {
  private readonly sweeps: (() => Promise<void>)[];

  constructor(
    private readonly jobs: JobService,
    repeats: SafeRepeatService,
  ) {
    this.sweeps = [() => repeats.forgetOld()];
    jobs.handle('retention', (job) => this.sweep(job));
  }

  /** Says what else is forgotten; it runs in a transaction of the firm. */
  add(sweep: () => Promise<void>): void {
    this.sweeps.push(sweep);
  }

  /** Within the firm's transaction: begins now, unless it is to come anyway. */
  async begin(): Promise<void> {
    await this.jobs.enqueue('retention', {});
  }

  private async sweep({ finish }: Job<object>): Promise<void> {
    await finish(async () => {
      for (const sweep of this.sweeps) await sweep();
      await this.jobs.enqueue('learned-rates', {});
      await this.jobs.enqueue('retention', {}, DAY_SECONDS);
    });
  }
}
