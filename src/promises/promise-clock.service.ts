import { Injectable } from '@nestjs/common';
import { ComputeService, type Task } from '../compute/compute.service.js';
import { NotFoundError } from '../shared/domain-error.js';
import { SitesService } from '../sites/sites.service.js';
import { Clock } from '../shared/clock.js';
import type { TroubleEvidence } from '../contracts/class-of-trouble.js';
import { ContractsService } from '../contracts/contracts.service.js';
import { siteDay } from '../contracts/coverage.js';
import { inForceOn } from '../contracts/site-cover.js';
import type { ClockQuestion, TicketClock } from './ticket-clock.js';
import { type ReadClock, TicketClockRepository } from './ticket-clock.repository.js';
import type { CourseEntry } from './ticket-course.js';

/** The clocks of each ticket, line by line. */
const CLOCKS_OF_TICKETS: Task<ClockQuestion[], TicketClock[]> = {
  file: new URL('./clocks-of-tickets.worker.js', import.meta.url),
  errors: {},
};

/** A place is taken for the cause from this chance on. */
const LIKELIER_THAN_NOT = 0.5;

export interface AskedClock {
  siteId: string;
  question: ClockQuestion;
  readAt: Date;
}

interface SiteOfClocks {
  zone: string;
  contracts: Awaited<ReturnType<ContractsService['get']>>[];
  calendars: Awaited<ReturnType<ContractsService['listCalendars']>>;
}

/** Reads what a ticket's clock depends on, and has it reckoned. */
@Injectable()
export class PromiseClockService {
  constructor(
    private readonly clocks: TicketClockRepository,
    private readonly contracts: ContractsService,
    private readonly sites: SitesService,
    private readonly compute: ComputeService,
    private readonly clock: Clock,
  ) {}

  /** Within a transaction. */
  async read(ticketId: string): Promise<AskedClock> {
    const [asked] = await this.readAll([ticketId]);
    if (asked === undefined) throw new NotFoundError('ticket', ticketId);
    return asked;
  }

  /** Within a transaction: of the tickets that there are, by their numbers. What is of sites is read for all in one go. */
  async readAll(ticketIds: readonly string[]): Promise<AskedClock[]> {
    const read = await this.clocks.read(ticketIds);
    const sites = await this.sitesOf([...new Set(read.map(({ siteId }) => siteId))]);
    const asked: AskedClock[] = [];
    for (const one of read) {
      const { siteId, readAt } = one;
      const site = sites.get(siteId);
      if (site === undefined) throw new NotFoundError('site', siteId);
      asked.push({ siteId, readAt, question: await this.ask(one, site) });
    }
    return asked;
  }

  /** Within a transaction: tickets that go by the contract, newest first; a not-found error where there is none. */
  async listOfContract(contractId: string, count: number) {
    await this.contracts.get(contractId);
    return this.clocks.listOfContract(contractId, count);
  }

  private async sitesOf(siteIds: readonly string[]): Promise<Map<string, SiteOfClocks>> {
    const sites = await this.sites.listOfIds(siteIds);
    const contracts = await this.contracts.listOfSites(siteIds);
    const all = [...contracts.values()].flat();
    const ids = new Set(all.flatMap(({ coverage }) => coverage.calendarIds));
    const calendars = await this.contracts.listCalendars([...ids]);
    return new Map(
      sites.map(({ id, zone }) => [id, { zone, contracts: contracts.get(id) ?? [], calendars }]),
    );
  }

  private async ask(
    read: ReadClock,
    { zone, contracts, calendars }: SiteOfClocks,
  ): Promise<ClockQuestion> {
    const reportedAt = read.reportedAt.getTime();
    const periods = contracts.map((one) => ({ ...one, contractId: one.id }));
    const contract = inForceOn(periods, siteDay(zone, reportedAt)) ?? null;
    const own = contract?.coverage.calendarIds ?? [];
    return {
      ticketId: read.ticketId,
      state: read.state,
      siteZone: zone,
      now: this.clock.now().getTime(),
      reportedAt,
      recordedAt: read.recordedAt.getTime(),
      entries: read.entries.map(toCourse),
      onSiteAt: read.onSiteAt.map(Date.parse),
      evidence: await this.evidenceOf(read),
      keptClass: read.keptClass,
      contract: contract && {
        id: contract.id,
        title: contract.title,
        promises: contract.promises,
        coverage: contract.coverage,
      },
      calendars: own.flatMap((id) =>
        calendars.filter((one) => one.id === id).map(({ name, times }) => ({ name, times })),
      ),
    };
  }

  async reckon(asked: AskedClock): Promise<TicketClock> {
    const [clock] = await this.reckonAll([asked]);
    if (clock === undefined) throw new Error('One question has one answer');
    return clock;
  }

  reckonAll(asked: readonly AskedClock[]): Promise<TicketClock[]> {
    return this.compute.run(
      CLOCKS_OF_TICKETS,
      asked.map(({ question }) => question),
    );
  }

  private async evidenceOf(read: ReadClock): Promise<TroubleEvidence> {
    const drawing = await this.sites.drawing(read.siteId, read.asBuiltVersion);
    const stations = drawing.trunks.flatMap(({ trunk, nodes }) =>
      nodes.flatMap(({ node, kind, isOut }) =>
        kind === 'station' && !isOut ? { trunk, node } : [],
      ),
    );
    const troubled = read.observations.filter(({ outcome }) => outcome !== 'works');
    const isTroubled = (one: { trunk: string; node: string }) =>
      troubled.some(({ trunk, node }) => trunk === one.trunk && node === one.node);
    const { likeliest } = read;
    return {
      stations,
      silent: troubled,
      heard: read.observations.filter((one) => !isTroubled(one)),
      behindLikeliest:
        likeliest !== null && likeliest.probability > LIKELIER_THAN_NOT
          ? likeliest.silentIfSo.map(({ trunk, node }) => ({ trunk, node }))
          : [],
    };
  }
}

/** The details have what the kind of entry says they have. */
function toCourse({ kind, at, saidBy, details }: ReadClock['entries'][number]): CourseEntry {
  return { ...details, kind, at: Date.parse(at), saidBy } as CourseEntry;
}
