import { Injectable } from '@nestjs/common';
import { LookService } from '../looks/look.service.js';
import { ReadingService } from '../readings/reading.service.js';
import { ObservationService } from '../reports/observation.service.js';
import { stands } from '../reports/withdrawal.js';
import type { SaidDto } from '../reports/report.dto.js';
import { ConflictError } from '../shared/domain-error.js';
import { type DrawnRecord, findNode, nameNodesOf } from '../sites/drawing.js';
import { SitesService } from '../sites/sites.service.js';
import { wordsIn } from '../words/index.js';
import { type LostPlace, lostPlaces, type SaidAtPlaces } from './lost-places.js';
import type { TicketDto } from './ticket.dto.js';
import type { Ticket } from './ticket.entity.js';
import { TicketLogService } from './ticket-log.service.js';
import type { OpenTicket } from './ticket.repository.js';
import { TicketService } from './ticket.service.js';
import type { NewerRecordDto } from './ticket-work.dto.js';

const MOST_MOVES = 200;

/** Of what would lose its place so much is told. */
const MOST_TOLD = 20;

/** More than a ticket and its visits can have. */
const ALL = 1_000_000;

/** Has tickets go by the newer version of their site's record. */
@Injectable()
export class TicketRecordService {
  constructor(
    private readonly reader: TicketService,
    private readonly log: TicketLogService,
    private readonly sites: SitesService,
    private readonly observations: ObservationService,
    private readonly readings: ReadingService,
    private readonly looks: LookService,
  ) {}

  /** A conflict where something that was said would lose its place by it, with what; then nothing changes. */
  async moveOn(ticketId: string, sent: NewerRecordDto): Promise<TicketDto> {
    const { siteId } = await this.reader.find(ticketId);
    const { asBuiltVersion } = await this.sites.lockSite(siteId);
    const ticket = await this.reader.findOpenToChange(ticketId);
    if (sent.asBuiltVersion !== asBuiltVersion)
      throw new ConflictError(`The record is at version ${asBuiltVersion} now.`, {
        asBuiltVersion,
      });
    if (ticket.asBuiltVersion === asBuiltVersion)
      throw new ConflictError(`Ticket ${ticket.number} goes by that version already.`);
    await this.write(ticket, sent, asBuiltVersion);
    return this.reader.describe(ticket);
  }

  /**
   * The version that a ticket of a locked site goes by from now on, about which these nodes are told: the site's where only
   * that has one of them, else its own.
   */
  async moveOnToName(
    { id, asBuiltVersion }: OpenTicket,
    site: { id: string; asBuiltVersion: number },
    told: readonly { trunk: string; node: string }[],
    said: SaidDto,
  ): Promise<number> {
    if (asBuiltVersion === site.asBuiltVersion) return asBuiltVersion;
    const own = await this.sites.drawing(site.id, asBuiltVersion);
    const isNew = ({ trunk, node }: { trunk: string; node: string }) =>
      findNode(own, trunk, node) === undefined;
    const added = told.filter(isNew);
    if (added.length === 0) return asBuiltVersion;
    const current = await this.sites.drawing(site.id, site.asBuiltVersion);
    if (!added.every(({ trunk, node }) => findNode(current, trunk, node) !== undefined))
      return asBuiltVersion;
    const ticket = await this.reader.findOpenToChange(id);
    // The report has the id that was sent.
    await this.write(ticket, { ...said, id: undefined, note: null }, site.asBuiltVersion);
    return site.asBuiltVersion;
  }

  /** Its site is locked. Brings the ticket to a version of the record that is newer than its own. */
  private async write(
    ticket: Ticket,
    sent: SaidDto & { note?: string | null },
    toVersion: number,
  ): Promise<void> {
    await this.log.checkRoom(ticket.id, 'newer-record', MOST_MOVES);
    const fromVersion = ticket.asBuiltVersion;
    const before = await this.sites.drawing(ticket.siteId, fromVersion);
    const after = await this.sites.drawing(ticket.siteId, toVersion);
    const lost = lostPlaces(await this.said(ticket.id), before, after);
    if (lost.length > 0) throw wouldLose(lost, before);
    const details = { fromVersion, toVersion, note: sent.note };
    await this.log.write(ticket, 'newer-record', sent, details, { asBuiltVersion: toVersion });
  }

  private async said(ticketId: string): Promise<SaidAtPlaces> {
    const heard = await this.observations.pageOfTicket(ticketId, undefined, ALL);
    const readings = await this.readings.pageAbout(ticketId, undefined, ALL);
    const looks = await this.looks.pageAbout(ticketId, undefined, ALL);
    const findings = await this.log.listOfTickets([ticketId], ['finding']);
    return {
      heard: heard.filter(stands),
      readings: readings.filter(stands).map(({ id, trunk, node, reading }) => {
        const from = reading?.kind === 'continuity' ? (reading.from ?? null) : null;
        return { id, trunk, node, from };
      }),
      looks: looks.filter(stands),
      findings: findings.map(({ id, details }) => ({ id, place: details.place ?? null })),
    };
  }
}

/** Named by the record that it was said on. */
function wouldLose(lost: readonly LostPlace[], before: DrawnRecord): ConflictError {
  const nameNode = nameNodesOf(before, wordsIn('en'));
  const nameOf = ({ trunk, node, group }: LostPlace) =>
    group ?? (trunk === null ? 'the head-end' : node === null ? trunk : nameNode(trunk, node));
  const names = [...new Set(lost.map(nameOf))];
  const rest = names.length - MOST_TOLD;
  const told = rest > 0 ? [...names.slice(0, MOST_TOLD), `… (+${rest})`] : names;
  return new ConflictError(
    `What was said of these would lose its place by the newer record: ${told.join(', ')}.`,
    { lost: lost.slice(0, MOST_TOLD), lostCount: lost.length },
  );
}
