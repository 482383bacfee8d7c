import { Injectable } from '@nestjs/common';
import { ComputeService, type Task } from '../compute/compute.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { LocationService } from '../locating/location.service.js';
import { Clock } from '../shared/clock.js';
import { InvalidInputError } from '../shared/domain-error.js';
import { currentLanguage } from '../shared/request-language.js';
import { SitesService } from '../sites/sites.service.js';
import { VanService } from '../vans/van.service.js';
import { VisitService } from '../visits/visit.service.js';
import { WalkService } from '../walks/walk.service.js';
import type { JobSheetDto } from './job-sheet.dto.js';
import { JobSheetFactsRepository } from './job-sheet-facts.repository.js';
import type { JobSheetQuestion } from './make-job-sheet.js';

/** Each is located and planned anew where nothing is kept of it. */
const MOST_TICKETS = 10;

const JOB_SHEET: Task<JobSheetQuestion, JobSheetDto> = {
  file: new URL('./job-sheet.worker.js', import.meta.url),
  errors: {},
};

const JOB_PAPER: Task<JobSheetQuestion, Uint8Array> = {
  file: new URL('./job-paper.worker.js', import.meta.url),
  errors: {},
  isSlow: true,
};

/** Puts together what a technician takes along to a visit. */
@Injectable()
export class JobSheetService {
  constructor(
    private readonly facts: JobSheetFactsRepository,
    private readonly visits: VisitService,
    private readonly sites: SitesService,
    private readonly location: LocationService,
    private readonly walk: WalkService,
    private readonly vans: VanService,
    private readonly transaction: FirmTransaction,
    private readonly compute: ComputeService,
    private readonly clock: Clock,
  ) {}

  async sheet(visitId: string): Promise<JobSheetDto> {
    return this.compute.run(JOB_SHEET, await this.ask(visitId));
  }

  async paper(visitId: string): Promise<Uint8Array> {
    return this.compute.run(JOB_PAPER, await this.ask(visitId));
  }

  private async ask(visitId: string): Promise<JobSheetQuestion> {
    const { visit, site, facts, van, drawings } = await this.transaction.read(() =>
      this.read(visitId),
    );
    const tickets: JobSheetQuestion['tickets'] = [];
    for (const [index, { id, number, said }] of facts.tickets.slice(0, MOST_TICKETS).entries()) {
      const location = await unlessRefused(this.locationOf(id));
      const walk = location === null ? null : await unlessRefused(this.walk.plan(id, {}));
      const asBuilt = drawings[index];
      if (asBuilt !== undefined) tickets.push({ id, number, said, asBuilt, location, walk });
    }
    return {
      visit,
      site,
      facts: { technician: facts.technician, lastVisits: facts.lastVisits },
      tickets,
      van,
      furtherTickets: facts.tickets.slice(MOST_TICKETS).map(({ number }) => number),
      language: currentLanguage(),
      madeAt: this.clock.now(),
    };
  }

  private async locationOf(ticketId: string): Promise<string> {
    return (await this.location.locate(ticketId)).text;
  }

  private async read(visitId: string) {
    const visit = await this.visits.get(visitId);
    const site = await this.sites.get(visit.siteId);
    const facts = await this.facts.read(visitId);
    const { technicianId } = visit;
    const vans = await this.vans.partsOf(technicianId === null ? [] : [technicianId]);
    const van = (technicianId !== null && vans.get(technicianId)) || null;
    const drawings = [];
    for (const { asBuiltVersion } of facts.tickets.slice(0, MOST_TICKETS)) {
      drawings.push(await this.sites.drawing(visit.siteId, asBuiltVersion));
    }
    return { visit, site, facts, van, drawings };
  }
}

/** Null where the evidence contradicts itself, or is more than the locator takes. */
async function unlessRefused(work: Promise<string>): Promise<string | null> {
  try {
    return await work;
  } catch (error) {
    if (error instanceof InvalidInputError) return null;
    throw error;
  }
}
