import { Injectable } from '@nestjs/common';
import { Any, In } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { TicketEntry } from './ticket-entry.entity.js';
import type { EntryKind } from './ticket-log.js';

@Injectable()
export class TicketEntryRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /** Every entry of these kinds on a ticket, oldest first. */
  async listOfKind(ticketId: string, kinds: EntryKind[]): Promise<TicketEntry[]> {
    const manager = await this.transaction.manager();
    return manager.find(TicketEntry, {
      where: { ticketId, kind: In(kinds) },
      order: { recordedAt: 'ASC', id: 'ASC' },
    });
  }

  /** Every entry of these kinds on these tickets, oldest first. */
  async listOfTickets(ticketIds: string[], kinds: EntryKind[]): Promise<TicketEntry[]> {
    if (ticketIds.length === 0) return [];
    const manager = await this.transaction.manager();
    return manager.find(TicketEntry, {
      where: { ticketId: Any(ticketIds), kind: In(kinds) },
      order: { recordedAt: 'ASC', id: 'ASC' },
    });
  }

  /** Those with these ids, on whatever ticket: what was moved keeps the entries it came with. */
  async listOfIds(ids: string[]): Promise<TicketEntry[]> {
    if (ids.length === 0) return [];
    const manager = await this.transaction.manager();
    return manager.findBy(TicketEntry, { id: Any(ids) });
  }

  /** The log of a ticket with those of the tickets merged into it, as recorded; a page of it. */
  async list(ticketId: string, after: string[] | undefined, count: number): Promise<TicketEntry[]> {
    const manager = await this.transaction.manager();
    const query = manager.createQueryBuilder(TicketEntry, 'entry').where(
      // As an array, so that entries are read by the index of their tickets.
      `entry.ticketId = ANY (ARRAY(
          WITH RECURSIVE together AS (
            SELECT :ticketId::uuid AS id
            UNION SELECT tickets.id FROM tickets JOIN together ON tickets.merged_into = together.id)
          SELECT id FROM together))`,
      { ticketId },
    );
    if (after !== undefined) {
      query.andWhere('(entry.recordedAt, entry.id) > (:at, :id)', { at: after[0], id: after[1] });
    }
    return query.orderBy('entry.recordedAt').addOrderBy('entry.id').limit(count).getMany();
  }
}
