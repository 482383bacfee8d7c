import { Injectable } from '@nestjs/common';
import { In, type SelectQueryBuilder } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { Look } from './look.entity.js';

/** Its own, and what was seen on the visits to it and to the tickets that were merged into it. */
const ABOUT_TICKET = `look.ticketId = :ticketId OR look.visitId IN (
  WITH RECURSIVE together AS (
    SELECT :ticketId::uuid AS id
    UNION SELECT tickets.id FROM tickets JOIN together ON tickets.merged_into = together.id)
  SELECT visit_id FROM visit_tickets JOIN together ON visit_tickets.ticket_id = together.id)`;

@Injectable()
export class LookRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(looks: Omit<Look, 'firmId'>[]): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(
      Look,
      looks.map((look) => ({ ...look })),
    );
  }

  /** The ids of those that belong to the ticket itself. */
  async idsOfTicket(ticketId: string): Promise<string[]> {
    const manager = await this.transaction.manager();
    const rows = await manager.find(Look, {
      select: { id: true },
      where: { ticketId },
      order: { lookedAt: 'ASC', id: 'ASC' },
    });
    return rows.map(({ id }) => id);
  }

  /**
   * What says something about a ticket: its own and those of the visits to it; oldest first, at most `count`, after the
   * given sort key.
   */
  async pageAbout(ticketId: string, after: string[] | undefined, count: number): Promise<Look[]> {
    const query = await this.about(ticketId);
    if (after !== undefined) {
      query.andWhere('(look.lookedAt, look.id) > (:at, :id)', { at: after[0], id: after[1] });
    }
    return query.orderBy('look.lookedAt').addOrderBy('look.id').limit(count).getMany();
  }

  /** One that says something about a ticket, kept from others until the transaction ends. */
  async findAboutLocked(ticketId: string, id: string): Promise<Look | null> {
    const query = await this.about(ticketId);
    return query.andWhere('look.id = :id', { id }).setLock('pessimistic_write').getOne();
  }

  /** By when they were looked at, then id; at most `count`, after the given sort key. */
  async listOfVisit(visitId: string, after: string[] | undefined, count: number): Promise<Look[]> {
    const manager = await this.transaction.manager();
    const query = manager
      .createQueryBuilder(Look, 'look')
      .where('look.visitId = :visitId', { visitId });
    if (after !== undefined) {
      query.andWhere('(look.lookedAt, look.id) > (:at, :id)', { at: after[0], id: after[1] });
    }
    return query.orderBy('look.lookedAt').addOrderBy('look.id').limit(count).getMany();
  }

  /** How many a visit has; nobody else adds to it until the transaction ends. */
  async countOfVisitLocked(visitId: string): Promise<number> {
    const manager = await this.transaction.manager();
    await manager.query(`SELECT pg_advisory_xact_lock(hashtextextended('looks ' || $1, 0))`, [
      visitId,
    ]);
    return manager.countBy(Look, { visitId });
  }

  async withdraw(id: string, withdrawalId: string): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.update(Look, { id }, { withdrawalId });
  }

  /** One of a visit, kept from others until the transaction ends. */
  async findOfVisitLocked(visitId: string, id: string): Promise<Look | null> {
    const manager = await this.transaction.manager();
    const lock = { mode: 'pessimistic_write' } as const;
    return manager.findOne(Look, { where: { visitId, id }, lock });
  }

  async withdrawOnVisit(id: string, visitWithdrawalId: string): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.update(Look, { id }, { visitWithdrawalId });
  }

  async moveTo(ticketId: string, lookIds: string[]): Promise<void> {
    if (lookIds.length === 0) return;
    const manager = await this.transaction.manager();
    await manager.update(Look, { id: In(lookIds) }, { ticketId });
  }

  private async about(ticketId: string): Promise<SelectQueryBuilder<Look>> {
    const manager = await this.transaction.manager();
    return manager.createQueryBuilder(Look, 'look').where(`(${ABOUT_TICKET})`, { ticketId });
  }
}
