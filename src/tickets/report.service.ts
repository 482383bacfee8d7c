import { Injectable } from '@nestjs/common';
import { ConflictError, type FieldError, InvalidInputError } from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import { SitesService } from '../sites/sites.service.js';
import { LocationService } from '../locating/location.service.js';
import { ObservationRepository } from '../reports/observation.repository.js';
import { isNotChecked, ObservationService, type Sent } from '../reports/observation.service.js';
import type { ReportDto, WalkTestDto } from '../reports/report.dto.js';
import { shareOut } from '../reports/share-out.js';
import type { ReportAnswerDto, TicketDto } from './ticket.dto.js';
import type { Ticket } from './ticket.entity.js';
import { TicketLogService } from './ticket-log.service.js';
import { TicketRepository } from './ticket.repository.js';
import { TicketService } from './ticket.service.js';

/** Takes reports: opens a ticket, or joins what is open for the same trunks. */
@Injectable()
export class ReportService {
  constructor(
    private readonly tickets: TicketRepository,
    private readonly observations: ObservationRepository,
    private readonly recorder: ObservationService,
    private readonly log: TicketLogService,
    private readonly reader: TicketService,
    private readonly sites: SitesService,
    private readonly location: LocationService,
  ) {}

  /** Takes a report about a site and shares it out to its tickets by trunk. */
  async reportSite(siteId: string, sentReport: ReportDto): Promise<ReportAnswerDto> {
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
    const answer: ReportAnswerDto = { id, tickets: [] };
    for (const [index, share] of shares.entries()) {
      const joined = share.ticket !== null;
      if (!joined) refuseIfAllWorks(share.sent);
      const ticket = await (share.ticket === null
        ? this.open(siteId, site.asBuiltVersion, report)
        : this.reader.findToChange(share.ticket.id));
      // The id that came with the report names its first entry; further shares have their own.
      const said = { ...report, id: index === 0 ? id : undefined };
      await this.recorder.record(ticket, said, report.how, share.sent, joined);
      const officeChecks = await this.location.officeChecks(ticket);
      answer.tickets.push({ ...(await this.reader.describe(ticket)), joined, officeChecks });
    }
    return answer;
  }

  /** Adds observations to a ticket that somebody has before them. */
  async reportTicket(ticketId: string, report: ReportDto): Promise<TicketDto> {
    const ticket = await this.reader.findToChange(ticketId);
    await this.recorder.record(ticket, report, report.how, checkOutcomes(report), true);
    return this.reader.describe(ticket);
  }

  async recordWalkTest(ticketId: string, walkTest: WalkTestDto): Promise<TicketDto> {
    const ticket = await this.reader.findToChange(ticketId);
    const sent = walkTest.observations.map((reported, index) => ({ index, reported }));
    await this.recorder.record(ticket, walkTest, 'walk-test', sent, true);
    return this.reader.describe(ticket);
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
