import { Injectable } from '@nestjs/common';
import { ComputeService, type Task } from '../compute/compute.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { SitesService } from '../sites/sites.service.js';
import { WorkTimesService } from '../work-times/work-times.service.js';
import { LocationService } from '../locating/location.service.js';
import { asInvalidInput, assertDrawn, LOCATOR_ERRORS } from '../locating/locating-tasks.js';
import type { WalkQueryDto } from './walk.dto.js';
import type { WalkQuestion } from './walk-ticket.js';

/** Answers with the plan in JSON. */
const WALK: Task<WalkQuestion, string> = {
  file: new URL('./walk.worker.js', import.meta.url),
  errors: LOCATOR_ERRORS,
};

/** Plans what a technician on site does next about a ticket. */
@Injectable()
export class WalkService {
  constructor(
    private readonly location: LocationService,
    private readonly sites: SitesService,
    private readonly workTimes: WorkTimesService,
    private readonly compute: ComputeService,
    private readonly transaction: FirmTransaction,
  ) {}

  /** The plan in JSON, see `WalkDto`. */
  async plan(ticketId: string, asked: WalkQueryDto): Promise<string> {
    const question = await this.transaction.read(async () => {
      const { question: ticket } = await this.location.read(ticketId);
      const site = await this.sites.get(ticket.ticket.siteId);
      return { ticket, asked: { ...asked }, site, times: await this.workTimes.times() };
    });
    assertDrawn(question.ticket);
    try {
      return await this.compute.run(WALK, question);
    } catch (error) {
      throw asInvalidInput(error);
    }
  }
}
