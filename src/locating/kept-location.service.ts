import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { JobData } from '../jobs/job-kinds.js';
import type { Job } from '../jobs/job-loop.service.js';
import { JobService } from '../jobs/job.service.js';
import { RetentionService } from '../jobs/retention.service.js';
import { Clock } from '../shared/clock.js';
import type { LocatedInJson } from './locate-ticket.js';
import { type AskedTicket, isCurrent, isKept, LocationService } from './location.service.js';
import { TicketFactsRepository } from './ticket-facts.repository.js';
import { TicketLocationRepository } from './ticket-location.repository.js';

/** Longer answers are worked out again when they are asked for. */
const LONGEST_KEPT = 1_000_000;

/** Keeps where the trouble of each open ticket lies, brought up to date after each change. */
@Injectable()
export class KeptLocationService {
  constructor(
    private readonly location: LocationService,
    private readonly facts: TicketFactsRepository,
    private readonly rows: TicketLocationRepository,
    private readonly transaction: FirmTransaction,
    private readonly jobs: JobService,
    private readonly retention: RetentionService,
    private readonly clock: Clock,
  ) {
    jobs.handle('locations', (job) => this.bringUpToDate(job));
  }

  /** Within a transaction; null: the locator refuses what it was asked. */
  keep({ question, fingerprint, readAt }: AskedTicket, located: LocatedInJson | null): void {
    const { id } = question.ticket;
    if (located === null) return this.rows.remove(id, readAt);
    if (!isKept(question)) return;
    const { places, officeChecks, predicted } = located;
    const answer = located.answer.length > LONGEST_KEPT ? null : located.answer;
    const workedOutAt = this.clock.now();
    this.rows.keep({
      id,
      fingerprint,
      readAt,
      workedOutAt,
      places,
      officeChecks,
      predicted,
      answer,
    });
  }

  /** Of processes that were told of the same change one works it out; should it fail, its job comes again. */
  private async keepClaimed(firmId: string, asked: AskedTicket): Promise<void> {
    const { fingerprint, readAt } = asked;
    const { id } = asked.question.ticket;
    const inFirm = <T>(work: () => T | Promise<T>) => this.transaction.run(firmId, 'write', work);
    if (!(await inFirm(() => this.rows.claim(id, fingerprint, readAt)))) return;
    try {
      const located = await this.location.keepable(asked);
      await inFirm(() => {
        this.keep(asked, located);
        this.rows.endClaim(id, fingerprint);
      });
    } catch (error) {
      await inFirm(() => this.rows.giveUp(id, fingerprint));
      throw error;
    }
  }

  private async bringUpToDate({ firmId, data, finish }: Job<JobData['locations']>): Promise<void> {
    const { siteId } = data;
    const open = await this.transaction.run(firmId, 'read', () => this.facts.listOpen(siteId));
    if (siteId === null) {
      const sites = [...new Set(open.map((ticket) => ticket.siteId))];
      return finish(async () => {
        for (const one of sites) await this.jobs.enqueue('locations', { siteId: one });
      });
    }
    for (const { id } of open) {
      const asked = await this.transaction.run(firmId, 'read', () => this.location.read(id));
      if (!isCurrent(asked)) await this.keepClaimed(firmId, asked);
    }
    await finish(async () => {
      // What was promised depends on how far the trouble goes.
      for (const { id } of open) await this.jobs.enqueue('promise-clocks', { ticketId: id });
      await this.retention.begin();
    });
  }
}
