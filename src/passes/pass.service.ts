import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { SafeRepeatService } from '../database/safe-repeat.service.js';
import { Clock } from '../shared/clock.js';
import { NotFoundError } from '../shared/domain-error.js';
import { currentLanguage } from '../shared/request-language.js';
import type { AsBuilt } from '../sites/as-built.js';
import type { WorkNearbyDto } from '../history/work-nearby.dto.js';
import { WorkNearbyService } from '../history/work-nearby.service.js';
import { SitesService } from '../sites/sites.service.js';
import type { ContradictionDto } from '../locating/answer.dto.js';
import { LocationService } from '../locating/location.service.js';
import { FirmService } from '../people/firm.service.js';
import { ReportService } from '../tickets/report.service.js';
import type { TicketDto } from '../tickets/ticket.dto.js';
import { TicketLookService } from '../tickets/ticket-look.service.js';
import { TicketService } from '../tickets/ticket.service.js';
import { OPEN_STATES } from '../tickets/ticket-lifecycle.js';
import { TicketWorkService } from '../tickets/ticket-work.service.js';
import type { VisitDto } from '../visits/visit.dto.js';
import { VisitService } from '../visits/visit.service.js';
import { wordsIn } from '../words/index.js';
import { dayAt, SIGN_WITHIN_DAYS } from './pass-rules.js';
import type {
  NextVisitDto,
  PassAnswerDto,
  PassLooksDto,
  PassReportAnswerDto,
  PassReportDto,
  PassRoomDto,
  PassSiteDto,
  PassTicketDto,
  PassWorkNearbyDto,
  VisitToSignDto,
} from './pass.dto.js';
import { SignatureService } from './signature.service.js';

/** More open tickets than this a site's page does not list. */
const TICKETS = 50;
/** Of planned visits as many are looked through for those about open tickets. */
const VISITS = 100;
const DAY_MS = 24 * 60 * 60_000;

/** What whoever holds a site's pass may see and do: no people's data, nothing that is past. */
@Injectable()
export class PassService {
  constructor(
    private readonly firms: FirmService,
    private readonly sites: SitesService,
    private readonly tickets: TicketService,
    private readonly reports: ReportService,
    private readonly work: TicketWorkService,
    private readonly looks: TicketLookService,
    private readonly works: WorkNearbyService,
    private readonly location: LocationService,
    private readonly visits: VisitService,
    private readonly signatures: SignatureService,
    private readonly transaction: FirmTransaction,
    private readonly repeats: SafeRepeatService,
    private readonly clock: Clock,
  ) {}

  async site(siteId: string): Promise<PassSiteDto> {
    const { name, servesEmergencyCalls, zone } = await this.sites.get(siteId);
    const now = this.clock.now();
    const open = await this.tickets.list({
      site: siteId,
      open: true,
      sort: 'newest',
      limit: TICKETS,
    });
    const visits = await this.comingVisits(siteId, zone, now);
    const firm = await this.firms.get();
    return {
      name,
      firm: { name: firm.name, phone: firm.phone },
      zone,
      servesEmergencyCalls,
      rooms: roomsOf(await this.sites.drawing(siteId)),
      tickets: open.items.map(({ id, number, state, openedAt }) => ({
        id,
        number,
        state,
        openedAt,
        nextVisit: comingIn(visits.find(({ ticketIds }) => ticketIds.includes(id))),
      })),
      nextVisit: comingIn(visits[0]),
      toSign: await this.toSign(siteId, zone),
    };
  }

  async ticket(ticketId: string): Promise<PassTicketDto> {
    return this.withChecks(
      await this.transaction.read(async () =>
        this.tickets.describe(await this.openTicket(ticketId)),
      ),
    );
  }

  private async withChecks(described: TicketDto): Promise<PassTicketDto> {
    const { id, number, state, openedAt, stillToProve, saidToWork, askFirst } = described;
    const told = await this.location.toldAtOnce(id);
    const { officeChecks } = told;
    const contradictions = told.contradictions.map(withoutNames);
    return {
      id,
      number,
      state,
      openedAt,
      stillToProve,
      saidToWork,
      askFirst,
      officeChecks,
      contradictions,
    };
  }

  report(siteId: string, { name, ...report }: PassReportDto): Promise<PassReportAnswerDto> {
    return this.repeats.inTwo(
      () => this.reports.reportSite(siteId, { ...report, saidBy: office(name) }),
      async ({ tickets }) => ({
        tickets: await Promise.all(tickets.map((ticket) => this.withChecks(ticket))),
      }),
    );
  }

  reportTicket(ticketId: string, { name, ...report }: PassReportDto): Promise<PassTicketDto> {
    return this.repeats.inTwo(
      async () => {
        await this.openTicket(ticketId);
        return this.reports.reportTicket(ticketId, { ...report, saidBy: office(name) });
      },
      (ticket) => this.withChecks(ticket),
    );
  }

  answer(ticketId: string, { name, ...answer }: PassAnswerDto): Promise<PassTicketDto> {
    return this.repeats.inTwo(
      async () => {
        await this.openTicket(ticketId);
        return this.work.answer(ticketId, { ...answer, saidBy: office(name) });
      },
      (ticket) => this.withChecks(ticket),
    );
  }

  look(ticketId: string, { name, ...looks }: PassLooksDto): Promise<PassTicketDto> {
    return this.repeats.inTwo(
      async () => {
        await this.openTicket(ticketId);
        return this.looks.take(ticketId, { ...looks, saidBy: office(name) });
      },
      () => this.ticket(ticketId),
    );
  }

  tellWorkNearby(siteId: string, { name, ...work }: PassWorkNearbyDto): Promise<WorkNearbyDto> {
    return this.works.tell(siteId, { ...work, saidBy: office(name) });
  }

  private async openTicket(ticketId: string) {
    const ticket = await this.tickets.find(ticketId);
    if (!OPEN_STATES.includes(ticket.state)) throw new NotFoundError('open ticket', ticketId);
    return ticket;
  }

  /** What is under way comes first; of what somebody forgot to end nobody is there the day after next. */
  private async comingVisits(siteId: string, zone: string, now: Date): Promise<VisitDto[]> {
    const of = { site: siteId, limit: VISITS };
    const lately = dayAt(new Date(now.getTime() - DAY_MS), zone);
    const { items: underWay } = await this.visits.list({ ...of, state: 'under-way', from: lately });
    const today = dayAt(now, zone);
    const { items: planned } = await this.visits.list({ ...of, state: 'planned', from: today });
    return [...underWay, ...planned];
  }

  private async toSign(siteId: string, zone: string): Promise<VisitToSignDto[]> {
    const earliest = new Date(this.clock.now().getTime() - SIGN_WITHIN_DAYS * DAY_MS);
    const done = { site: siteId, from: dayAt(earliest, zone), state: 'done', limit: 50 } as const;
    const { items } = await this.visits.list(done);
    const signed = await this.signatures.signedOf(items.map(({ id }) => id));
    return items
      .filter(({ id }) => !signed.has(id))
      .map(({ id, on, workDone }) => ({ id, on, workDone }));
  }
}

function office(name: string) {
  return { name, kind: 'office' as const };
}

function comingIn(visit: VisitDto | undefined): NextVisitDto | null {
  if (visit === undefined) return null;
  const { on, fromTime, kind, state } = visit;
  return { on, fromTime, kind, isUnderWay: state === 'under-way' };
}

function roomsOf({ trunks }: AsBuilt): PassRoomDto[] {
  return trunks.flatMap(({ trunk, nodes }) =>
    nodes
      .filter(({ kind }) => kind === 'station')
      .map(({ node, room, block, floor, groups }) => ({ trunk, node, room, block, floor, groups })),
  );
}

/** Whoever holds a pass is told nothing of people. */
function withoutNames({ trunk, node, room, function: name }: ContradictionDto) {
  const words = wordsIn(currentLanguage()).answer.saidBoth(room ?? node, name);
  return { trunk, node, room, function: name, words };
}
