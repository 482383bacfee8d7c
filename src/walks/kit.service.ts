import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { ComputeService, type Task } from '../compute/compute.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { SitesService } from '../sites/sites.service.js';
import { TicketLogService } from '../tickets/ticket-log.service.js';
import { TicketService } from '../tickets/ticket.service.js';
import { WorkTimesService } from '../work-times/work-times.service.js';
import { asInvalidInput, assertDrawn, LOCATOR_ERRORS } from '../locating/locating-tasks.js';
import { LocationService } from '../locating/location.service.js';
import type { KitNoteDto } from './kit.dto.js';
import type { KitQuestion } from './kit-ticket.js';

/** Answers with the kit in JSON. */
const KIT: Task<KitQuestion, string> = {
  file: new URL('./kit.worker.js', import.meta.url),
  errors: LOCATOR_ERRORS,
};

const MOST_NOTES = 30;

export interface Kit {
  etag: string;
  /** In JSON; null: whoever asks has it already. */
  json: string | null;
}

/** Gives pages what they need to work out a ticket by themselves. */
@Injectable()
export class KitService {
  constructor(
    private readonly location: LocationService,
    private readonly sites: SitesService,
    private readonly tickets: TicketService,
    private readonly log: TicketLogService,
    private readonly workTimes: WorkTimesService,
    private readonly compute: ComputeService,
    private readonly transaction: FirmTransaction,
  ) {}

  /** `known`: the ETag of the one that the asker has. */
  async kit(ticketId: string, known: string | undefined): Promise<Kit> {
    const { ticket, fingerprint, ...besides } = await this.transaction.read(() =>
      this.read(ticketId),
    );
    assertDrawn(ticket);
    const told = JSON.stringify([besides, ticket.language]);
    const hash = createHash('sha256').update(fingerprint).update(told);
    const etag = `"${hash.digest('base64url')}"`;
    if (known === etag) return { etag, json: null };
    try {
      return { etag, json: await this.compute.run(KIT, { ticket, ...besides }) };
    } catch (error) {
      throw asInvalidInput(error);
    }
  }

  private async read(ticketId: string) {
    // A page goes by the names: what it entered itself is told once, by the kit that names it or by the page.
    await this.transaction.beOfOneMoment();
    const entryIds = await this.log.listLastIdsTogether(ticketId);
    const { question: ticket, fingerprint } = await this.location.read(ticketId);
    const { number } = await this.tickets.get(ticketId);
    const found = await this.sites.get(ticket.ticket.siteId);
    const { id, name, address, zone, safetyNotes, servesEmergencyCalls } = found;
    const site = { id, name, address, zone, safetyNotes, servesEmergencyCalls };
    const times = await this.workTimes.times();
    const notes = await this.notes(ticketId);
    return { ticket, number, site, notes, entryIds, times, fingerprint };
  }

  private async notes(ticketId: string): Promise<KitNoteDto[]> {
    const entries = await this.log.listLastTogether(ticketId, ['note', 'mending'], MOST_NOTES);
    return entries.map(({ id, kind, saidBy, happenedAt, details, ...entry }) => ({
      saidBy,
      happenedAt,
      words: details.note ?? details.what ?? '',
      mendingId: kind === 'mending' && entry.ticketId === ticketId ? id : null,
    }));
  }
}
