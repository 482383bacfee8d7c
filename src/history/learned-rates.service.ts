import { isDeepStrictEqual } from 'node:util';
import { Injectable } from '@nestjs/common';
import { ComputeService, type Task } from '../compute/compute.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { Job } from '../jobs/job-loop.service.js';
import { JobService } from '../jobs/job.service.js';
import { Clock } from '../shared/clock.js';
import type { AsBuilt } from '../sites/as-built.js';
import { SitesService } from '../sites/sites.service.js';
import type { ClassAtSite } from './class-at-site.js';
import { learnErrors } from './learned-errors.js';
import { LearnedErrorsRepository } from './learned-errors.repository.js';
import { LearnedPartsRepository, type LearningMarks } from './learned-parts.repository.js';
import { LearnedRateRepository } from './learned-rate.repository.js';
import {
  type ClassOfFirm,
  type LearnedClass,
  learnedFrom,
  yearsOfRecord,
} from './learned-rates.js';
import type { ClosedTicket, Repair, TicketExperience } from './ticket-experience.js';

const LEARN_TICKETS: Task<{ asBuilt: AsBuilt; tickets: ClosedTicket[] }, TicketExperience[]> = {
  file: new URL('./learn-tickets.worker.js', import.meta.url),
  errors: {},
};
const LEARN_SITE: Task<{ asBuilt: AsBuilt; repairs: Repair[] }, ClassAtSite[]> = {
  file: new URL('./learn-site.worker.js', import.meta.url),
  errors: {},
};
const LEARN_CLASS: Task<ClassOfFirm, LearnedClass[]> = {
  file: new URL('./learn-class.worker.js', import.meta.url),
  errors: {},
};

/**
 * Keeps what a firm's own record teaches, rates and how often calls and looks mislead: for the firm as a whole, whoever asks then. What
 * has changed is learned in three steps, each from what the one before it kept: tickets, their sites, the classes of components.
 */
@Injectable()
export class LearnedRatesService {
  constructor(
    private readonly parts: LearnedPartsRepository,
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
    const nextMarks = () => this.transaction.run(firmId, 'read', () => this.parts.marked());
    for (let marks = await nextMarks(); marks !== null; marks = await nextMarks())
      await this.learnSite(firmId, marks);
    const rates = await this.learnClasses(firmId);
    await finish(async () => {
      const isForgotten = await this.rates.forget(rates === null ? 'all' : 'gone');
      if (rates !== null && rates.length > 0) await this.rates.keep(rates);
      const isChanged = await this.keepErrors();
      if (isForgotten || isChanged || (rates !== null && rates.length > 0))
        await this.jobs.enqueue('locations', { siteId: null });
    });
  }

  private async learnSite(firmId: string, marks: LearningMarks): Promise<void> {
    const { siteId, ticketIds } = marks;
    const read = <T>(work: () => Promise<T>) => this.transaction.run(firmId, 'read', work);
    const tickets = await read(() => this.parts.closedTickets(ticketIds));
    const learned: TicketExperience[] = [];
    for (const version of new Set(tickets.map(({ asBuiltVersion }) => asBuiltVersion))) {
      const asBuilt = await read(() => this.sites.drawing(siteId, version));
      const ofVersion = tickets.filter(({ asBuiltVersion }) => asBuiltVersion === version);
      learned.push(...(await this.compute.runJob(LEARN_TICKETS, { asBuilt, tickets: ofVersion })));
    }
    await this.transaction.run(firmId, 'write', () => this.parts.keepTickets(ticketIds, learned));
    const site = await read(async () => ({
      asBuilt: await this.sites.drawing(siteId),
      repairs: await this.parts.repairsAt(siteId),
    }));
    const classes = await this.compute.runJob(LEARN_SITE, site);
    await this.transaction.run(firmId, 'write', async () => {
      const isOurs = await this.parts.keepSite(marks, classes);
      if (!isOurs) throw new Error('Another has learned it meanwhile');
    });
  }

  /** Null: nothing was ever mended, and so nothing is learned. */
  private async learnClasses(firmId: string): Promise<LearnedClass[] | null> {
    const { since, isMended } = await this.transaction.run(firmId, 'read', () =>
      this.parts.extent(),
    );
    if (since === null || !isMended) return null;
    const today = new Date(this.clock.now().toISOString().slice(0, 10));
    const years = yearsOfRecord(since, today);
    const names = await this.transaction.run(firmId, 'read', () =>
      this.parts.classesToLearn(learnedFrom(years)),
    );
    const learned: LearnedClass[] = [];
    for (const className of names) {
      const sites = await this.transaction.run(firmId, 'read', () =>
        this.parts.sitesOfClass(className),
      );
      learned.push(...(await this.compute.runJob(LEARN_CLASS, { className, years, sites })));
    }
    return learned;
  }

  /** Says whether they are others than before. */
  private async keepErrors(): Promise<boolean> {
    const calls = await this.errors.closedCalls();
    const looks = await this.errors.looks();
    const isNothing =
      calls.length === 0 && Object.values(looks).every(({ missed, seen }) => missed + seen === 0);
    const learned = isNothing ? null : learnErrors(calls, looks);
    if (isDeepStrictEqual(await this.errors.known(), learned)) return false;
    await this.errors.replace(learned);
    return true;
  }
}
