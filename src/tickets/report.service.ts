import { Injectable } from '@nestjs/common';
import { ConflictError, type FieldError, InvalidInputError } from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import { SitesService } from '../sites/sites.service.js';
import {
  checkAgainstDrawing,
  isNotChecked,
  ObservationService,
  type Sent,
  toPoint,
} from '../reports/observation.service.js';
import type { ReportDto, SaidDto, WalkTestDto } from '../reports/report.dto.js';
import { shareOut } from '../reports/share-out.js';
import type { TicketDto } from './ticket.dto.js';
import type { Ticket } from './ticket.entity.js';
import type { HowReported } from '../reports/observation.js';
import type { EntryDetails } from './ticket-log.js';
import { TicketLogService } from './ticket-log.service.js';
import { TicketRepository } from './ticket.repository.js';
import { TicketService } from './ticket.service.js';

/** A report with the tickets that it went to. */
export interface SharedReport {
  id: string;
  /** `joined`: the ticket was open already. */
  tickets: (TicketDto & { joined: boolean })[];
}

/** Takes reports: opens a ticket, or joins what is open for the same trunks. */
@Injectable()
export class ReportService {
  constructor(
    private readonly tickets: TicketRepository,
    private readonly observations: ObservationService,
    private readonly log: TicketLogService,
    private readonly reader: TicketService,
    private readonly sites: SitesService,
  ) {}

  /** Takes a report about a site and shares it out to its tickets by trunk. */
  async reportSite(siteId: string, sentReport: ReportDto): Promise<SharedReport> {
    const report = this.log.dated(sentReport);
    // One report of a site at a time decides which tickets it joins.
    const site = await this.sites.lockSite(siteId);
    if (site.asBuiltVersion === 0) {
      throw new ConflictError('This site has no as-built record yet; send its sheet first.');
    }
    const sent = checkOutcomes(report);
    const open = await this.tickets.listOpenOfSite(siteId);
    const trunksOf = await this.observations.trunksOfTickets(open.map(({ id }) => id));
    const shares = shareOut(
      sent,
      open.map((ticket) => ({ ticket, trunks: trunksOf.get(ticket.id) ?? [] })),
    );
    const id = idOrNew(report.id);
    const answer: SharedReport = { id, tickets: [] };
    for (const [index, share] of shares.entries()) {
      const joined = share.ticket !== null;
      if (!joined) refuseIfAllWorks(share.sent);
      const ticket = await (share.ticket === null
        ? this.open(siteId, site.asBuiltVersion, report)
        : this.reader.findToChange(share.ticket.id));
      // The id that came with the report names its first entry; further shares have their own.
      const said = { ...report, id: index === 0 ? id : undefined };
      await this.record(ticket, said, report.how, share.sent, joined);
      answer.tickets.push({ ...(await this.reader.describe(ticket)), joined });
    }
    return answer;
  }

  /** Adds observations to a ticket that somebody has before them. */
  async reportTicket(ticketId: string, report: ReportDto): Promise<TicketDto> {
    const ticket = await this.reader.findToChange(ticketId);
    await this.record(ticket, report, report.how, checkOutcomes(report), true);
    return this.reader.describe(ticket);
  }

  async recordWalkTest(ticketId: string, walkTest: WalkTestDto): Promise<TicketDto> {
    const ticket = await this.reader.findToChange(ticketId);
    const sent = walkTest.observations.map((reported, index) => ({ index, reported }));
    await this.record(ticket, walkTest, 'walk-test', sent, true);
    return this.reader.describe(ticket);
  }

  /** Appends one entry with its observations to a ticket's log. */
  private async record(
    ticket: Ticket,
    saidNowOrThen: SaidDto & { note?: string | null },
    how: HowReported,
    sent: Sent[],
    joined: boolean,
  ): Promise<void> {
    const drawing = await this.sites.drawing(ticket.siteId, ticket.asBuiltVersion);
    checkAgainstDrawing(sent, drawing);
    const said = this.log.dated(saidNowOrThen);
    const details: EntryDetails = {
      how,
      joined,
      note: said.note ?? null,
      notChecked: sent.filter(isNotChecked).map(({ reported }) => toPoint(reported)),
    };
    const kind = how === 'walk-test' ? 'walk-test' : 'report';
    const entryId = await this.log.write(ticket, kind, said, details);
    const { id: ticketId, period } = ticket;
    await this.observations.add({ ticketId, period, entryId, said, how }, sent);
  }

  private async open(
    siteId: string,
    asBuiltVersion: number,
    report: ReportDto & { saidAt: Date },
  ): Promise<Ticket> {
    const ticket = {
      id: idOrNew(undefined),
      number: await this.tickets.nextNumber(),
      siteId,
      asBuiltVersion,
      state: 'reported' as const,
      openedBy: report.saidBy.name,
      openedAt: report.saidAt,
      closedAt: null,
      mergedInto: null,
      followUpDueOn: null,
      period: 0,
      version: 0,
    };
    await this.tickets.insert(ticket);
    return this.reader.find(ticket.id);
  }
}

/** Rooms that were not gone through cannot be "not checked", and a report says at least something. */
function checkOutcomes({ how, observations }: ReportDto): Sent[] {
  const sent = observations.map((reported, index) => ({ index, reported }));
  const errors: FieldError[] = sent
    .filter((one) => how === 'volunteered' && isNotChecked(one))
    .map(({ index }) => ({
      field: `/observations/${index}/outcome`,
      reason: 'not-checked belongs to a list that was gone through',
    }));
  if (sent.every(isNotChecked)) {
    errors.push({ field: '/observations', reason: 'says of no room that it was heard or silent' });
  }
  if (errors.length > 0) throw new InvalidInputError(errors);
  return sent;
}

function refuseIfAllWorks(sent: Sent[]): void {
  if (sent.some(({ reported: { outcome } }) => outcome === 'fails' || outcome === 'weak')) return;
  throw new InvalidInputError([
    {
      field: '/observations',
      reason: 'all of it works, and no ticket is open there that it could join',
    },
  ]);
}
