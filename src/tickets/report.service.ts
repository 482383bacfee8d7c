import { Injectable } from '@nestjs/common';
import { ConflictError, type FieldError, InvalidInputError } from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import { SitesService } from '../sites/sites.service.js';
import {
  checkAgainstDrawing,
  isNotChecked,
  ObservationService,
  type SaidOn,
  type Sent,
  toPoint,
} from '../reports/observation.service.js';
import type { ReportDto, SaidDto, WalkTestDto } from '../reports/report.dto.js';
import { type Share, shareOut } from '../reports/share-out.js';
import type { TicketDto } from './ticket.dto.js';
import type { Ticket } from './ticket.entity.js';
import { type HowReported, isTrouble } from '../reports/observation.js';
import type { EntryDetails } from './ticket-log.js';
import { TicketLogService } from './ticket-log.service.js';
import { TicketRecordService } from './ticket-record.service.js';
import { type OpenTicket, TicketRepository } from './ticket.repository.js';
import { TicketService } from './ticket.service.js';

/** A report with the tickets that it went to. */
export interface SharedReport {
  id: string;
  /** `joined`: the ticket was open already. */
  tickets: (TicketDto & { joined: boolean })[];
}

/** Where nothing is drawn, a ticket has a report for each note. */
const MOST_IN_WORDS = 2_000;

/** Takes reports: opens a ticket, or joins what is open for the same trunks. */
@Injectable()
export class ReportService {
  constructor(
    private readonly tickets: TicketRepository,
    private readonly observations: ObservationService,
    private readonly log: TicketLogService,
    private readonly reader: TicketService,
    private readonly sites: SitesService,
    private readonly records: TicketRecordService,
  ) {}

  /** Takes a report about a site and shares it out to its tickets by trunk. */
  async reportSite(siteId: string, sentReport: ReportDto): Promise<SharedReport> {
    const report = this.log.dated(sentReport);
    // One report of a site at a time decides which tickets it joins.
    const site = await this.sites.lockSite(siteId);
    if (site.asBuiltVersion === 0) return this.reportInWords(site.id, report);
    const sent = checkOutcomes(report);
    const open = await this.tickets.listOpenOfSite(siteId);
    const shares = shareOut(
      sent,
      open.map((ticket) => ({ ticket, trunks: ticket.trunks })),
    );
    const id = idOrNew(report.id);
    const written: Recorded[] = [];
    for (const [index, share] of shares.entries()) {
      // The id that came with the report names its first entry; further shares have their own.
      const said = { ...report, id: index === 0 ? id : undefined };
      written.push(await this.takeShare(site, said, share));
    }
    await this.observations.add(written.map(({ said }) => said));
    const described = await this.reader.describeAll(written.map(({ ticket }) => ticket));
    const tickets = described.map((ticket, index) => {
      return { ...ticket, joined: shares[index]?.ticket !== null };
    });
    return { id, tickets };
  }

  /** Where nothing is drawn, the note says all: it opens a ticket, or joins the one that is open. */
  private async reportInWords(siteId: string, report: DatedReport): Promise<SharedReport> {
    if (report.observations.length > 0) {
      throw new ConflictError(
        'This site has no as-built record yet: a report of it is a note, without rooms.',
      );
    }
    if (!report.note?.trim()) {
      const reason = 'must say which rooms are silent: this site has no as-built record yet';
      throw new InvalidInputError([{ field: '/note', reason }]);
    }
    const id = idOrNew(report.id);
    const [open] = await this.tickets.listOpenOfSite(siteId);
    if (open !== undefined) await this.log.checkRoom(open.id, 'report', MOST_IN_WORDS);
    const details = detailsOf(report, report.how, [], open !== undefined);
    const { saidAt, saidBy } = report;
    const { urgentReason } = details;
    const opened = { siteId, asBuiltVersion: 0, openedBy: saidBy.name, openedAt: saidAt };
    const { ticket } = await (open === undefined
      ? this.log.open({ ...opened, urgentReason, period: 0 }, 'report', { ...report, id }, details)
      : this.log.join(open.id, 'report', { ...report, id }, details));
    return {
      id,
      tickets: [{ ...(await this.reader.describe(ticket)), joined: open !== undefined }],
    };
  }

  /** Adds observations to a ticket that somebody has before them. */
  async reportTicket(ticketId: string, report: ReportDto): Promise<TicketDto> {
    const ticket = await this.reader.findToChange(ticketId);
    return this.record(ticket, report, report.how, checkOutcomes(report));
  }

  async recordWalkTest(ticketId: string, walkTest: WalkTestDto): Promise<TicketDto> {
    const ticket = await this.reader.findToChange(ticketId);
    const sent = walkTest.observations.map((reported, index) => ({ index, reported }));
    return this.record(ticket, walkTest, 'walk-test', sent);
  }

  /** Opens a ticket for what of a report no open one is about, or joins one; its site is locked. */
  private async takeShare(
    site: { id: string; asBuiltVersion: number },
    report: DatedReport,
    { ticket: joined, sent }: Share<OpenTicket, Sent>,
  ): Promise<Recorded> {
    if (joined === null) refuseIfAllWorks(sent);
    const { how, saidAt, saidBy } = report;
    const rooms = sent.map(({ reported }) => reported);
    const asBuiltVersion =
      joined === null
        ? site.asBuiltVersion
        : await this.records.moveOnToName(joined, site, rooms, report);
    const drawing = await this.sites.drawing(site.id, asBuiltVersion);
    checkAgainstDrawing(sent, drawing, { how, kind: saidBy.kind });
    const details = detailsOf(report, how, sent, joined !== null);
    const { urgentReason } = details;
    const opened = { siteId: site.id, asBuiltVersion, openedBy: saidBy.name, openedAt: saidAt };
    const { ticket, entryId } = await (joined === null
      ? this.log.open({ ...opened, urgentReason, period: 0 }, 'report', report, details)
      : this.log.join(joined.id, 'report', report, details));
    const { id: ticketId, period } = ticket;
    return { ticket, said: { ticketId, period, entryId, said: report, how, sent } };
  }

  /** Appends one entry with its observations to the log of a ticket that is kept from others. */
  private async record(
    ticket: Ticket,
    saidNowOrThen: SaidDto & Remarks,
    how: HowReported,
    sent: Sent[],
  ): Promise<TicketDto> {
    const drawing = await this.sites.drawing(ticket.siteId, ticket.asBuiltVersion);
    checkAgainstDrawing(sent, drawing, { how, kind: saidNowOrThen.saidBy.kind });
    const said = this.log.dated(saidNowOrThen);
    const kind = how === 'walk-test' ? 'walk-test' : 'report';
    const details = detailsOf(said, how, sent, true);
    const urgentReason = details.urgentReason ?? ticket.urgentReason;
    const entryId = await this.log.write(ticket, kind, said, details, { urgentReason });
    const { id: ticketId, period } = ticket;
    await this.observations.add([{ ticketId, period, entryId, said, how, sent }]);
    return this.reader.describe(ticket);
  }
}

type DatedReport = ReportDto & { saidAt: Date };

/** A ticket with what was said on it, which is still to be kept. */
interface Recorded {
  ticket: Ticket;
  said: SaidOn;
}

/** What a report, or a walk test, says beside its rooms. */
type Remarks = Partial<Pick<ReportDto, 'note' | 'urgentReason' | 'callBackPhone' | 'oddities'>>;

function detailsOf(said: Remarks, how: HowReported, sent: Sent[], joined: boolean) {
  const { note = null, urgentReason = null, callBackPhone = null, oddities = [] } = said;
  const notChecked = sent.filter(isNotChecked).map(({ reported }) => toPoint(reported));
  return {
    how,
    joined,
    note,
    notChecked,
    urgentReason,
    ...(callBackPhone !== null && { callBackPhone }),
    ...(oddities.length > 0 && { oddities }),
  } satisfies EntryDetails;
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
  if (sent.some(({ reported }) => isTrouble(reported))) return;
  throw new InvalidInputError([
    {
      field: '/observations',
      reason: 'all of it works, and no ticket is open there that it could join',
    },
  ]);
}
