import { Injectable } from '@nestjs/common';
import { ComputeService } from '../compute/compute.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { Clock } from '../shared/clock.js';
import { ClosedCalendarRepository } from './closed-calendar.repository.js';
import { CONTRACT_VISITS, OWED_VISITS } from './contract-tasks.js';
import type {
  ContractVisitQueryDto,
  ContractVisitsDto,
  PromisedVisitDto,
  YearOfVisitsDto,
} from './contract-visit.dto.js';
import type { OwedQuestion, OwedVisit, VisitsQuestion } from './contract-visits.js';
import { contractYears } from './contract-year.js';
import { ContractService } from './contract.service.js';
import { siteDay } from './coverage.js';
import { UpkeepRepository } from './upkeep.repository.js';
import { VISIT_STANDINGS, type VisitStanding } from './kept-visits.js';

/** Contracts of which the owed visits are told at once. */
const MOST_CONTRACTS = 200;

/** Says which of the visits that a contract promises were made, and which are owed. */
@Injectable()
export class ContractVisitService {
  constructor(
    private readonly contracts: ContractService,
    private readonly calendars: ClosedCalendarRepository,
    private readonly upkeep: UpkeepRepository,
    private readonly transaction: FirmTransaction,
    private readonly compute: ComputeService,
    private readonly clock: Clock,
  ) {}

  /** Within a time, half-open: promised visits that nobody planned yet, of the contracts in force, the first to begin first. */
  async listOwed(from: string, until: string): Promise<{ visits: OwedVisit[]; isCutOff: boolean }> {
    const { isCutOff, ...question } = await this.transaction.read(() => this.readOwed(from, until));
    return { visits: await this.compute.run(OWED_VISITS, question), isCutOff };
  }

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
    const contract = { ...(await this.contracts.find(contractId)), id: contractId };
    const [question] = await this.questionsOf([contract], site ?? null);
    if (question === undefined) throw new Error('One contract makes one question');
    return question;
  }

  private async readOwed(
    from: string,
    until: string,
  ): Promise<OwedQuestion & { isCutOff: boolean }> {
    const covering = await this.contracts.listCovering(from, until, MOST_CONTRACTS + 1);
    const contracts = await this.questionsOf(covering.slice(0, MOST_CONTRACTS), null);
    return { contracts, from, until, isCutOff: covering.length > MOST_CONTRACTS };
  }

  /** In two statements, however many contracts there are. */
  private async questionsOf(
    contracts: readonly (VisitsQuestion['terms'] & { id: string })[],
    site: string | null,
  ): Promise<OwedQuestion['contracts']> {
    const ids = contracts.map(({ id }) => id);
    const upkeep = await this.upkeep.list(ids, site);
    const named = contracts.flatMap(({ visitHours }) => visitHours.avoidCalendarIds);
    const calendars = await this.calendars.listOfIds([...new Set(named)]);
    const now = this.clock.now().getTime();
    return contracts.map(
      ({ id: contractId, from, until, visitsPerYear, visitRhythm, visitHours, coverage }) => ({
        contractId,
        terms: { from, until, visitsPerYear, visitRhythm, visitHours, coverage },
        avoided: calendars
          .filter(({ id }) => visitHours.avoidCalendarIds.includes(id))
          .flatMap(({ times }) => times),
        sites: upkeep
          .filter((one) => one.contractId === contractId)
          .map(({ siteId, zone, visits }) => ({ siteId, today: siteDay(zone, now), visits })),
      }),
    );
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
