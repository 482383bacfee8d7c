import { Injectable } from '@nestjs/common';
import { JobService } from '../jobs/job.service.js';
import { Clock } from '../shared/clock.js';
import { ConflictError, NotFoundError } from '../shared/domain-error.js';
import { happenedAt } from '../shared/happened-at.js';
import { idOrNew } from '../shared/new-id.js';
import type { SaidDto } from '../reports/report.dto.js';
import { VisitWithdrawalService } from '../reports/visit-withdrawal.service.js';
import { type Withdrawable, withWithdrawals } from '../reports/withdrawal.js';
import type { TicketEntry } from './ticket-entry.entity.js';
import { TicketEntryRepository } from './ticket-entry.repository.js';
import type { EntryDetails, EntryKind } from './ticket-log.js';
import { type NewTicketEntry, type NewTicket, TicketRepository } from './ticket.repository.js';
import type { Ticket } from './ticket.entity.js';

/** A ticket as it is after an entry of its log was written. */
export interface Written {
  ticket: Ticket;
  entryId: string;
}

/** A page that was away for long, and has more of its own than these, has what it read since. */
const MOST_IDS = 100;

/** Writes tickets and their logs: every change is an entry and the columns derived from it. */
@Injectable()
export class TicketLogService {
  constructor(
    private readonly tickets: TicketRepository,
    private readonly entries: TicketEntryRepository,
    private readonly onVisits: VisitWithdrawalService,
    private readonly jobs: JobService,
    private readonly clock: Clock,
  ) {}

  /** Appends an entry and saves the ticket as it is after it. Gives the entry's id. */
  async write(
    ticket: Ticket,
    kind: EntryKind,
    said: SaidDto,
    details: EntryDetails,
    changes: Partial<Omit<Ticket, 'id' | 'firmId' | 'version'>> = {},
  ): Promise<string> {
    Object.assign(ticket, changes, { version: ticket.version + 1 });
    const entry = this.entryOf(ticket.id, kind, said, details);
    await this.tickets.save(ticket, entry);
    await this.jobs.enqueue('locations', { siteId: ticket.siteId });
    await this.jobs.enqueue('promise-clocks', { ticketId: ticket.id });
    return entry.id;
  }

  /** Opens a ticket, with the entry that says why. */
  async open(
    ticket: Omit<NewTicket, 'id'>,
    kind: EntryKind,
    said: SaidDto,
    details: EntryDetails,
  ): Promise<Written> {
    const id = idOrNew(undefined);
    const entry = this.entryOf(id, kind, said, details);
    const opened = await this.tickets.open({ ...ticket, id }, entry);
    await this.jobs.enqueue('locations', { siteId: ticket.siteId });
    if (kind === 'report') await this.tellReport(id, entry.id);
    return { ticket: opened, entryId: entry.id };
  }

  /** Appends an entry to an open ticket that stays as it is but for its version; its site is locked, so that it stays open. */
  async join(
    ticketId: string,
    kind: EntryKind,
    said: SaidDto,
    details: EntryDetails,
  ): Promise<Written> {
    const entry = this.entryOf(ticketId, kind, said, details);
    const ticket = await this.tickets.join(entry, details.urgentReason ?? null);
    if (ticket === null) throw new NotFoundError('open ticket', ticketId);
    await this.jobs.enqueue('locations', { siteId: ticket.siteId });
    if (kind === 'report') await this.tellReport(ticketId, entry.id);
    return { ticket, entryId: entry.id };
  }

  private tellReport(ticketId: string, entryId: string): Promise<void> {
    return this.jobs.enqueue('notices', { kind: 'new-report', ticketId, entryId });
  }

  private entryOf(
    ticketId: string,
    kind: EntryKind,
    said: SaidDto,
    details: EntryDetails,
  ): NewTicketEntry {
    return {
      id: idOrNew(said.id),
      ticketId,
      kind,
      saidBy: said.saidBy.name,
      saidByKind: said.saidBy.kind,
      happenedAt: this.saidAt(said),
      recordedAt: this.clock.now(),
      details,
    };
  }

  /** The entry of these kinds on a ticket that was recorded last, or null. */
  lastOfKind(ticketId: string, kinds: EntryKind[]): Promise<TicketEntry | null> {
    return this.entries.lastOfKind(ticketId, kinds);
  }

  /** Refuses a further entry of a kind on a ticket that has this many: all of them are read at once. */
  async checkRoom(ticketId: string, kind: EntryKind, most: number): Promise<void> {
    if ((await this.entries.countOfKind(ticketId, kind)) >= most)
      throw new ConflictError(`A ticket takes ${most} entries of the kind ${kind} at most.`, {
        most,
      });
  }

  /** Every entry of these kinds on these tickets, oldest first. */
  listOfTickets(ticketIds: string[], kinds: EntryKind[]): Promise<TicketEntry[]> {
    return this.entries.listOfTickets(ticketIds, kinds);
  }

  /** The last `most` entries of these kinds on a ticket and on those merged into it, oldest first. */
  listLastTogether(ticketId: string, kinds: EntryKind[], most: number): Promise<TicketEntry[]> {
    return this.entries.listLastTogether(ticketId, kinds, most);
  }

  /** Of the last entries of a ticket and of those merged into it the ids, newest first: what a page entered itself is among them or not. */
  listLastIdsTogether(ticketId: string): Promise<string[]> {
    return this.entries.listLastIdsTogether(ticketId, MOST_IDS);
  }

  /** Rows with who withdrew them, when and why, whatever ticket's or visit's log says so; null where nobody did. */
  async tellWithdrawals<Row extends Withdrawable>(rows: readonly Row[]) {
    const ids = rows.flatMap(({ withdrawalId }) => withdrawalId ?? []);
    const onVisits = rows.flatMap(({ visitWithdrawalId }) => visitWithdrawalId ?? []);
    return withWithdrawals(rows, [
      ...(await this.entries.listOfIds(ids)),
      ...(await this.onVisits.listOfIds(onVisits)).map((one) => ({
        ...one,
        details: one,
      })),
    ]);
  }

  now(): Date {
    return this.clock.now();
  }

  /** What is said with the instant of it, so that all that it changes has the same. */
  dated<Said extends SaidDto>(said: Said): Said & { saidAt: Date } {
    return { ...said, saidAt: this.saidAt(said) };
  }

  saidAt({ saidAt }: SaidDto, field = '/saidAt'): Date {
    return happenedAt(field, saidAt, this.clock.now());
  }
}
