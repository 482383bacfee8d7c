import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { JobData } from '../jobs/job-kinds.js';
import type { Job } from '../jobs/job-loop.service.js';
import { JobService } from '../jobs/job.service.js';
import { Clock } from '../shared/clock.js';
import { NotFoundError } from '../shared/domain-error.js';
import { newsOf, toKeep } from './kept-clock.js';
import { type AskedClock, PromiseClockService } from './promise-clock.service.js';
import type { TicketClock } from './ticket-clock.js';
import { TicketClockRepository } from './ticket-clock.repository.js';

/** Keeps each ticket's clock, and says once when a breach is near, when it is there, and when a due instant moved. */
@Injectable()
export class KeptClockService {
  constructor(
    private readonly clocks: PromiseClockService,
    private readonly rows: TicketClockRepository,
    private readonly transaction: FirmTransaction,
    private readonly jobs: JobService,
    private readonly clock: Clock,
  ) {
    jobs.handle('promise-clocks', (job) => this.bringUpToDate(job));
  }

  private async bringUpToDate({ firmId, data, finish }: Job<JobData['promise-clocks']>) {
    if ('siteId' in data) {
      return finish(async () => {
        const tickets = await this.rows.listOfSite(data.siteId);
        for (const ticketId of tickets) await this.jobs.enqueue('promise-clocks', { ticketId });
      });
    }
    const asked = await this.transaction.run(firmId, 'read', () => this.find(data.ticketId));
    if (asked === null) return finish(() => Promise.resolve());
    const reckoned = await this.clocks.reckon(asked);
    await finish(() => this.keep(asked, reckoned, data.at));
  }

  private async find(ticketId: string): Promise<AskedClock | null> {
    try {
      return await this.clocks.read(ticketId);
    } catch (error) {
      if (error instanceof NotFoundError) return null;
      throw error;
    }
  }

  /** Whoever has the row tells what is new; who comes after with what was read before has nothing to say. */
  private async keep(
    { question, readAt }: AskedClock,
    reckoned: TicketClock,
    comesAt: string | undefined,
  ): Promise<void> {
    const { ticketId, now } = question;
    const kept = toKeep(reckoned, now);
    const before = await this.rows.lock(ticketId, kept);
    if (before.readAt !== null && before.readAt > readAt) return;
    const { news, told } = newsOf(reckoned, before, now);
    await this.rows.update(ticketId, { ...kept, readAt, told });
    const at = this.clock.now();
    for (const one of news) {
      await this.rows.note(ticketId, one, at);
      const { kind, promise, dueAt } = one;
      if (kind !== 'promise-warning' || dueAt === null) continue;
      await this.jobs.enqueue('notices', { kind: 'breach-near', ticketId, promise, dueAt });
    }
    const { lookAt } = kept;
    if (lookAt === null) return;
    // Somebody looks then already, unless that was this job, which came too early by the clock here.
    const next = lookAt.toISOString();
    if (before.lookAt?.toISOString() === next && comesAt !== next) return;
    const seconds = Math.ceil((lookAt.getTime() - now) / 1000);
    await this.jobs.enqueue('promise-clocks', { ticketId, at: next }, seconds);
  }
}
