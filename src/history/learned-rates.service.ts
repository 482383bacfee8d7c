import { isDeepStrictEqual } from 'node:util';
import { Injectable } from '@nestjs/common';
import { ComputeService, type Task } from '../compute/compute.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { Job } from '../jobs/job-loop.service.js';
import { JobService } from '../jobs/job.service.js';
import { Clock } from '../shared/clock.js';
import { SitesService } from '../sites/sites.service.js';
import { HistoryRepository } from './history.repository.js';
import { LearnedRateRepository } from './learned-rate.repository.js';
import { LearnedErrorsRepository } from './learned-errors.repository.js';
import type { LearnedRecord, RecordedWork } from './learned-record.js';
import { foundBy } from './work-done.js';

const LEARN: Task<RecordedWork, LearnedRecord> = {
  file: new URL('./learned-rates.worker.js', import.meta.url),
  errors: {},
};

const NOTHING_LEARNED: LearnedRecord = { changed: [], all: [], errors: null };

/** Keeps what a firm's own record teaches, rates and how often calls and looks mislead: for the firm as a whole, whoever asks then. */
@Injectable()
export class LearnedRatesService {
  constructor(
    private readonly history: HistoryRepository,
    private readonly rates: LearnedRateRepository,
    private readonly errors: LearnedErrorsRepository,
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
      const areRatesHeld = learned.changed.length === 0 && learned.all.length === held;
      const areErrorsHeld = isDeepStrictEqual(await this.errors.known(), learned.errors);
      if (areRatesHeld && areErrorsHeld) return;
      if (!areRatesHeld) await this.rates.replace(learned);
      if (!areErrorsHeld) await this.errors.replace(learned.errors);
      await this.jobs.enqueue('locations', { siteId: null });
    });
  }

  /** Null: nothing was ever closed. */
  private async ask(): Promise<RecordedWork | null> {
    const { closedTickets, firstOpenedAt } = await this.history.state();
    if (closedTickets === 0 || firstOpenedAt === null) return null;
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
      calls: await this.errors.closedCalls(),
      looks: await this.errors.pastLooks(),
    };
  }
}
