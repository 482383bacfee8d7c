import { Injectable } from '@nestjs/common';
import { ComputeService } from '../compute/compute.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { Clock } from '../shared/clock.js';
import { SitesService } from '../sites/sites.service.js';
import { VisitService } from '../visits/visit.service.js';
import { ClosedCalendarRepository } from './closed-calendar.repository.js';
import { CONTRACT_VISITS } from './contract-tasks.js';
import type {
  ContractVisitQueryDto,
  ContractVisitsDto,
  PromisedVisitDto,
  YearOfVisitsDto,
} from './contract-visit.dto.js';
import type { VisitsQuestion } from './contract-visits.js';
import { contractYears } from './contract-year.js';
import { ContractService } from './contract.service.js';
import { siteDay } from './coverage.js';
import { VISIT_STANDINGS, type VisitStanding } from './kept-visits.js';

/** Says which of the visits that a contract promises were made, and which are owed. */
@Injectable()
export class ContractVisitService {
  constructor(
    private readonly contracts: ContractService,
    private readonly calendars: ClosedCalendarRepository,
    private readonly sites: SitesService,
    private readonly visits: VisitService,
    private readonly transaction: FirmTransaction,
    private readonly compute: ComputeService,
    private readonly clock: Clock,
  ) {}

  async list(contractId: string, query: ContractVisitQueryDto): Promise<ContractVisitsDto> {
    const question = await this.transaction.read(() => this.read(contractId, query.site));
    const sites = await this.compute.run(CONTRACT_VISITS, question);
    const all = sites.flatMap(({ siteId, slots }) => slots.map((slot) => ({ siteId, ...slot })));
    const ofYears = all.filter(({ year }) => query.year === undefined || year === query.year);
    const { standing } = query;
    return {
      contractId,
      years: yearsOf(question, ofYears),
      items: ofYears.filter((one) => standing === undefined || one.standing === standing),
      further: sites.flatMap(({ further }) => further),
    };
  }

  private async read(contractId: string, site: string | undefined): Promise<VisitsQuestion> {
    const terms = await this.contracts.find(contractId);
    const avoided = await this.calendars.listOfIds(terms.visitHours.avoidCalendarIds);
    const sites: VisitsQuestion['sites'] = [];
    for (const siteId of terms.siteIds.filter((id) => site === undefined || id === site)) {
      const { zone } = await this.sites.get(siteId);
      const visits = await this.visits.listUpkeep(siteId, terms.from);
      sites.push({ siteId, today: siteDay(zone, this.clock.now().getTime()), visits });
    }
    const { from, until, visitsPerYear, visitRhythm, visitHours, coverage } = terms;
    return {
      terms: { from, until, visitsPerYear, visitRhythm, visitHours, coverage },
      avoided: avoided.flatMap(({ times }) => times),
      sites,
    };
  }
}

function yearsOf({ terms }: VisitsQuestion, slots: readonly PromisedVisitDto[]): YearOfVisitsDto[] {
  return contractYears(terms).flatMap(({ number, from, until }) => {
    const own = slots.filter(({ year }) => year === number);
    if (own.length === 0) return [];
    const standings = Object.fromEntries(
      VISIT_STANDINGS.map((one) => [one, own.filter(({ standing }) => standing === one).length]),
    ) as Record<VisitStanding, number>;
    return [{ year: number, from, until, promised: own.length, standings }];
  });
}
