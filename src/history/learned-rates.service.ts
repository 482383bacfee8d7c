import { Injectable } from '@nestjs/common';
import { ComputeService, type Task } from '../compute/compute.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { Job } from '../jobs/job-loop.service.js';
import { JobService } from '../jobs/job.service.js';
import { Clock } from '../shared/clock.js';
import { SitesService } from '../sites/sites.service.js';
import { HistoryRepository } from './history.repository.js';
import { LearnedRateRepository } from './learned-rate.repository.js';
import type { learnClasses, Learned } from './learned-rates.js';
import { foundBy } from './work-done.js';

type Question = Parameters<typeof learnClasses>[0];

const LEARN: Task<Question, Learned> = {
  file: new URL('./learned-rates.worker.js', import.meta.url),
  errors: {},
};

const NOTHING_LEARNED: Learned = { changed: [], all: [] };

/** Keeps the rates that a firm's own findings teach: for the firm as a whole, whoever asks then. */
@Injectable()
export class LearnedRatesService {
  constructor(
    private readonly history: HistoryRepository,
    private readonly rates: LearnedRateRepository,
    private readonly sites: SitesService,
    private readonly compute: ComputeService,
    private readonly transaction: FirmTransaction,
    private readonly jobs: JobService,
    private readonly clock: Clock,
  ) {
    jobs.handle('learned-rates', (job) => this.learn(job));
  }

  private async learn({ firmId, finish }: Job<object>): Promise<void> {
    const question = await this.transaction.run(firmId, 'read', () => this.ask());
    const learned =
      question === null ? NOTHING_LEARNED : await this.compute.runJob(LEARN, question);
    await finish(async () => {
      const held = Object.keys(await this.rates.known()).length;
      if (learned.changed.length === 0 && learned.all.length === held) return;
      await this.rates.replace(learned);
      await this.jobs.enqueue('locations', { siteId: null });
    });
  }

  /** Null: nothing was ever mended. */
  private async ask(): Promise<Question | null> {
    const { mendings, firstOpenedAt } = await this.history.state();
    if (mendings === 0 || firstOpenedAt === null) return null;
    const entries = await this.history.workOnClosedTickets();
    const ofSite = new Map<string, typeof entries>();
    for (const entry of entries) {
      const known = ofSite.get(entry.siteId);
      if (known === undefined) ofSite.set(entry.siteId, [entry]);
      else known.push(entry);
    }
    const drawings = await this.sites.drawings();
    return {
      sites: drawings.map(({ siteId, asBuilt }) => {
        return { siteId, asBuilt, found: foundBy(ofSite.get(siteId) ?? []) };
      }),
      recordedSince: firstOpenedAt,
      today: new Date(this.clock.now().toISOString().slice(0, 10)),
      known: await this.rates.known(),
    };
  }
}
