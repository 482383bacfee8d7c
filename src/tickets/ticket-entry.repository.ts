import { Injectable } from '@nestjs/common';
import { Any, In } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { TicketEntry } from './ticket-entry.entity.js';
import type { EntryKind } from './ticket-log.js';

@Injectable()
export class TicketEntryRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /** The entry of these kinds on a ticket that was recorded last, or null. */
  async lastOfKind(ticketId: string, kinds: EntryKind[]): Promise<TicketEntry | null> {
    const manager = await this.transaction.manager();
    const [last] = await manager.find(TicketEntry, {
      where: { ticketId, kind: In(kinds) },
      order: { recordedAt: 'DESC', id: 'DESC' },
      take: 1,
    });
    return last ?? null;
  }

  async countOfKind(ticketId: string, kind: EntryKind): Promise<number> {
    const manager = await this.transaction.manager();
    return manager.countBy(TicketEntry, { ticketId, kind });
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

  /** The last `most` entries of these kinds on a ticket and on those merged into it, oldest first. */
  async listLastTogether(
    ticketId: string,
    kinds: EntryKind[],
    most: number,
  ): Promise<TicketEntry[]> {
    const query = await this.queryTogether(ticketId);
    const last = await query
      .andWhere('entry.kind IN (:...kinds)', { kinds })
      .orderBy('entry.recordedAt', 'DESC')
      .addOrderBy('entry.id', 'DESC')
      .limit(most)
      .getMany();
    return last.reverse();
  }

  /** Of the last `most` of all kinds the ids, newest first. */
  async listLastIdsTogether(ticketId: string, most: number): Promise<string[]> {
    const query = await this.queryTogether(ticketId);
    const rows = await query
      .select('entry.id', 'id')
      .orderBy('entry.recordedAt', 'DESC')
      .addOrderBy('entry.id', 'DESC')
      .limit(most)
      .getRawMany<{ id: string }>();
    return rows.map(({ id }) => id);
  }

  /** The log of a ticket with those of the tickets merged into it, as recorded; a page of it. */
  async list(ticketId: string, after: string[] | undefined, count: number): Promise<TicketEntry[]> {
    const query = await this.queryTogether(ticketId);
    if (after !== undefined) {
      query.andWhere('(entry.recordedAt, entry.id) > (:at, :id)', { at: after[0], id: after[1] });
    }
    return query.orderBy('entry.recordedAt').addOrderBy('entry.id').limit(count).getMany();
  }

  private async queryTogether(ticketId: string) {
    const manager = await this.transaction.manager();
    return manager.createQueryBuilder(TicketEntry, 'entry').where(
      // As an array, so that entries are read by the index of their tickets.
      `entry.ticketId = ANY (ARRAY(
          WITH RECURSIVE together AS (
            SELECT :ticketId::uuid AS id
            UNION SELECT tickets.id FROM tickets JOIN together ON tickets.merged_into = together.id)
          SELECT id FROM together))`,
      { ticketId },
    );
  }
}
