import { Injectable } from '@nestjs/common';
import { Any, type SelectQueryBuilder } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { Reading } from './reading.entity.js';

/** Its own, and what was read on the visits to it and to the tickets that were merged into it. */
const ABOUT_TICKET = `reading.ticketId = :ticketId OR reading.visitId IN (
  WITH RECURSIVE together AS (
    SELECT :ticketId::uuid AS id
    UNION SELECT tickets.id FROM tickets JOIN together ON tickets.merged_into = together.id)
  SELECT visit_id FROM visit_tickets JOIN together ON visit_tickets.ticket_id = together.id)`;

@Injectable()
export class ReadingRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(reading: Omit<Reading, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(Reading, { ...reading });
  }

  /** The ids of those that belong to the ticket itself, oldest first. */
  async idsOfTicket(ticketId: string): Promise<string[]> {
    const manager = await this.transaction.manager();
    const rows = await manager.find(Reading, {
      select: { id: true },
      where: { ticketId },
      order: { takenAt: 'ASC', id: 'ASC' },
    });
    return rows.map(({ id }) => id);
  }

  /**
   * What says something about a ticket: its own and those of the visits to it; oldest first, at most `count`, after the
   * given sort key.
   */
  async pageAbout(
    ticketId: string,
    after: string[] | undefined,
    count: number,
  ): Promise<Reading[]> {
    const query = await this.about(ticketId);
    if (after !== undefined) {
      query.andWhere('(reading.takenAt, reading.id) > (:at, :id)', { at: after[0], id: after[1] });
    }
    return query.orderBy('reading.takenAt').addOrderBy('reading.id').limit(count).getMany();
  }

  /** One that says something about a ticket, kept from others until the transaction ends. */
  async findAboutLocked(ticketId: string, id: string): Promise<Reading | null> {
    const query = await this.about(ticketId);
    return query.andWhere('reading.id = :id', { id }).setLock('pessimistic_write').getOne();
  }

  /** By when they were taken, then id; at most `count`, after the given sort key. */
  async listOfVisit(
    visitId: string,
    after: string[] | undefined,
    count: number,
  ): Promise<Reading[]> {
    const manager = await this.transaction.manager();
    const query = manager
      .createQueryBuilder(Reading, 'reading')
      .where('reading.visitId = :visitId', { visitId });
    if (after !== undefined) {
      query.andWhere('(reading.takenAt, reading.id) > (:takenAt, :id)', {
        takenAt: after[0],
        id: after[1],
      });
    }
    return query.orderBy('reading.takenAt').addOrderBy('reading.id').limit(count).getMany();
  }

  /** How many a visit has; nobody else adds to it until the transaction ends. */
  async countOfVisitLocked(visitId: string): Promise<number> {
    const manager = await this.transaction.manager();
    await manager.query(`SELECT pg_advisory_xact_lock(hashtextextended('readings ' || $1, 0))`, [
      visitId,
    ]);
    return manager.countBy(Reading, { visitId });
  }

  async withdraw(id: string, withdrawalId: string): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.update(Reading, { id }, { withdrawalId });
  }

  /** One of a visit, kept from others until the transaction ends. */
  async findOfVisitLocked(visitId: string, id: string): Promise<Reading | null> {
    const manager = await this.transaction.manager();
    const lock = { mode: 'pessimistic_write' } as const;
    return manager.findOne(Reading, { where: { visitId, id }, lock });
  }

  async withdrawOnVisit(id: string, visitWithdrawalId: string): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.update(Reading, { id }, { visitWithdrawalId });
  }

  async moveTo(ticketId: string, readingIds: string[]): Promise<void> {
    if (readingIds.length === 0) return;
    const manager = await this.transaction.manager();
    await manager.update(Reading, { id: Any(readingIds) }, { ticketId });
  }

  private async about(ticketId: string): Promise<SelectQueryBuilder<Reading>> {
    const manager = await this.transaction.manager();
    return manager.createQueryBuilder(Reading, 'reading').where(`(${ABOUT_TICKET})`, { ticketId });
  }
}
