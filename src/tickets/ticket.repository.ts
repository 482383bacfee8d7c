import { Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import { findById } from '../database/find-by-id.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { OPEN_STATES, type TicketState } from './ticket-lifecycle.js';
import { Ticket } from './ticket.entity.js';

export interface TicketFilter {
  siteId?: string;
  states?: readonly TicketState[];
  /** Only tickets with a lower number: the list goes from new to old. */
  below?: number;
}

interface Likeliest {
  words: string;
  probability: number;
}

export interface ListedTicket {
  ticket: Ticket;
  likeliest: Likeliest | null;
}

@Injectable()
export class TicketRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async nextNumber(): Promise<number> {
    const manager = await this.transaction.manager();
    const [rows] = await manager.query<[{ number: number }[]]>(
      `UPDATE firms SET last_ticket_number = last_ticket_number + 1
       RETURNING last_ticket_number AS number`,
    );
    const [row] = rows;
    if (row === undefined) throw new Error('The firm of the transaction is not in the database');
    return row.number;
  }

  async insert(ticket: Omit<Ticket, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(Ticket, { ...ticket });
  }

  async find(id: string): Promise<Ticket | null> {
    const manager = await this.transaction.manager();
    return findById(manager, Ticket, id);
  }

  /** Reads a ticket and keeps others from changing it until the transaction ends. */
  async findLocked(id: string): Promise<Ticket | null> {
    const manager = await this.transaction.manager();
    return manager.findOne(Ticket, { where: { id }, lock: { mode: 'pessimistic_write' } });
  }

  async listOpenOfSite(siteId: string): Promise<Ticket[]> {
    const manager = await this.transaction.manager();
    return manager.find(Ticket, {
      where: { siteId, state: In([...OPEN_STATES]) },
      order: { number: 'ASC' },
    });
  }

  /** With the likeliest place as it was worked out last (the table of `locating`), all in one query. */
  async list(filter: TicketFilter, count: number): Promise<ListedTicket[]> {
    const manager = await this.transaction.manager();
    const query = manager.createQueryBuilder(Ticket, 'ticket');
    const { siteId, states, below } = filter;
    if (siteId !== undefined) query.andWhere('ticket.siteId = :siteId', { siteId });
    if (states !== undefined) query.andWhere('ticket.state IN (:...states)', { states });
    if (below !== undefined) query.andWhere('ticket.number < :below', { below });
    const { entities, raw } = await query
      .addSelect(
        `(SELECT places -> 0 FROM ticket_locations AS kept WHERE kept.id = ticket.id)`,
        'likeliest',
      )
      .orderBy('ticket.number', 'DESC')
      .limit(count)
      .getRawAndEntities<{ likeliest: Likeliest | null }>();
    return entities.map((ticket, row) => ({ ticket, likeliest: raw[row]?.likeliest ?? null }));
  }

  /** Closed in a period, the first instant in and the last out; oldest first. */
  async listClosed(filter: { siteId?: string; from?: Date; until?: Date }): Promise<Ticket[]> {
    const manager = await this.transaction.manager();
    const { siteId, from, until } = filter;
    const query = manager.createQueryBuilder(Ticket, 'ticket').where(`ticket.state = 'closed'`);
    if (siteId !== undefined) query.andWhere('ticket.siteId = :siteId', { siteId });
    if (from !== undefined) query.andWhere('ticket.closedAt >= :from', { from });
    if (until !== undefined) query.andWhere('ticket.closedAt < :until', { until });
    return query.orderBy('ticket.closedAt').addOrderBy('ticket.id').getMany();
  }

  async update({ firmId, id, ...columns }: Ticket): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.update(Ticket, { id }, columns);
  }
}
