import { Injectable } from '@nestjs/common';
import { ComputeService, type Task } from '../compute/compute.service.js';
import { ContractService } from '../contracts/contract.service.js';
import { ContractVisitService } from '../contracts/contract-visit.service.js';
import { ContractsService } from '../contracts/contracts.service.js';
import { contractYears, type ContractYear } from '../contracts/contract-year.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { HistoryService } from '../history/history.service.js';
import { PromiseClockService } from '../promises/promise-clock.service.js';
import { Clock } from '../shared/clock.js';
import { type FieldError, InvalidInputError } from '../shared/domain-error.js';
import { currentLanguage } from '../shared/request-language.js';
import { StatisticsError } from '../statistics/statistics-error.js';
import { FirmCostsService } from './firm-costs.service.js';
import type { ReviewDto, ReviewQueryDto } from './review.dto.js';
import { ReviewRepository } from './review.repository.js';
import { ReviewedSitesService } from './reviewed-sites.service.js';
import type { ReviewQuestion } from './review-question.js';
import { MAKE_REVIEW, REVIEW_PAPER, REVIEW_SHEET } from './review-tasks.js';

/** A year of more than that is no pack that anybody reads. */
const MOST_TICKETS = 500;
const MOST_VISITS = 2000;
const MOST_FAILURES = 2000;

/** Shows a year of a contract: read in one short transaction, worked out on the pool. */
@Injectable()
export class ReviewService {
  constructor(
    private readonly facts: ReviewRepository,
    private readonly contract: ContractService,
    private readonly contracts: ContractsService,
    private readonly promised: ContractVisitService,
    private readonly clocks: PromiseClockService,
    private readonly history: HistoryService,
    private readonly costs: FirmCostsService,
    private readonly sites: ReviewedSitesService,
    private readonly transaction: FirmTransaction,
    private readonly compute: ComputeService,
    private readonly clock: Clock,
  ) {}

  review(contractId: string, query: ReviewQueryDto): Promise<ReviewDto> {
    return this.make(MAKE_REVIEW, contractId, query);
  }

  sheet(contractId: string, query: ReviewQueryDto): Promise<string> {
    return this.make(REVIEW_SHEET, contractId, query);
  }

  paper(contractId: string, query: ReviewQueryDto): Promise<Uint8Array> {
    return this.make(REVIEW_PAPER, contractId, query);
  }

  private async make<Answer>(
    task: Task<ReviewQuestion, Answer>,
    contractId: string,
    query: ReviewQueryDto,
  ): Promise<Answer> {
    const prior = priorOf(query);
    const year = await this.transaction.read(async () =>
      yearOf(await this.contract.find(contractId), query.year, this.today()),
    );
    const promisedVisits = await this.promised.list(contractId, { year: year.number });
    const read = await this.transaction.read(() => this.read(contractId, year));
    try {
      return await this.compute.run(task, { ...read, year, promisedVisits, prior });
    } catch (error) {
      if (!(error instanceof StatisticsError)) throw error;
      throw invalid('evenHours', `with sureHours: ${error.reason}`);
    }
  }

  private async read(contractId: string, year: ContractYear) {
    const contract = await this.contract.find(contractId);
    const { siteIds, coverage } = contract;
    const tickets = await this.facts.listTickets(siteIds, year, MOST_TICKETS + 1);
    if (tickets.length > MOST_TICKETS) throw tooMany('tickets', MOST_TICKETS);
    const visits = await this.facts.listVisits(siteIds, year, MOST_VISITS + 1);
    if (visits.length > MOST_VISITS) throw tooMany('visits', MOST_VISITS);
    const recordedSince = await this.facts.recordedSince(contractId);
    const record = { from: recordedSince, until: year.until };
    const failures = await this.facts.listFailures(siteIds, record, MOST_FAILURES + 1);
    if (failures.length > MOST_FAILURES) throw tooMany('failures on record', MOST_FAILURES);
    const ofYear = tickets.filter(({ isOfYear }) => isOfYear).map(({ ticketId }) => ticketId);
    const clocks = await this.clocks.readAll(ofYear);
    const calendars = await this.contracts.listCalendars(coverage.calendarIds);
    return {
      contract: {
        id: contract.id,
        title: contract.title,
        clientName: await this.facts.clientName(contract.clientId),
        currency: contract.currency,
        coverage,
      },
      calendars: calendars.map(({ name, times }) => ({ name, times })),
      now: this.clock.now().getTime(),
      language: currentLanguage(),
      sites: await this.sites.read(siteIds),
      visits,
      tickets,
      clocks: clocks.map(({ question }) => question),
      failures,
      recordedSince,
      rates: await this.history.ratesAt(siteIds),
      costs: await this.costs.read(),
    };
  }

  private today(): string {
    return this.clock.now().toISOString().slice(0, 10);
  }
}

function priorOf({ evenHours, sureHours }: ReviewQueryDto): ReviewQuestion['prior'] {
  if (evenHours === undefined && sureHours === undefined) return null;
  if (evenHours === undefined) throw invalid('evenHours', 'is needed with sureHours');
  if (sureHours === undefined) throw invalid('sureHours', 'is needed with evenHours');
  if (sureHours >= evenHours) throw invalid('sureHours', 'must be below evenHours');
  return { evenHours, sureHours };
}

/** Left out: the last year that is over, which is what a meeting is about; before there is one, the first. */
function yearOf(
  contract: { from: string; until: string },
  asked: number | undefined,
  today: string,
): ContractYear {
  const years = contractYears(contract);
  const over = years.filter(({ until }) => until <= today);
  const year = asked === undefined ? (over.at(-1) ?? years[0]) : years[asked - 1];
  if (year !== undefined) return year;
  throw invalid(
    'year',
    `the contract has ${years.length} ${years.length === 1 ? 'year' : 'years'}`,
  );
}

function tooMany(what: string, most: number): InvalidInputError {
  return invalid('year', `has more than ${most} ${what}, more than a review takes`);
}

function invalid(field: string, reason: string): InvalidInputError {
  const error: FieldError = { field, reason };
  return new InvalidInputError([error]);
}
