import { Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import { findById } from '../database/find-by-id.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { StaleVersionError } from '../shared/domain-error.js';
import { ClosedCalendar } from './closed-calendar.entity.js';

@Injectable()
export class ClosedCalendarRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(calendar: Omit<ClosedCalendar, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(ClosedCalendar, { ...calendar });
  }

  find(id: string): Promise<ClosedCalendar | null> {
    return findById(this.transaction, ClosedCalendar, id);
  }

  /** Nobody changes, removes or begins to go by it until the transaction ends. */
  async findLocked(id: string): Promise<ClosedCalendar | null> {
    const manager = await this.transaction.manager();
    return manager.findOne(ClosedCalendar, { where: { id }, lock: { mode: 'pessimistic_write' } });
  }

  /** Those that are there, and stay there until the transaction ends. */
  async listKept(ids: string[]): Promise<ClosedCalendar[]> {
    if (ids.length === 0) return [];
    const manager = await this.transaction.manager();
    return manager.find(ClosedCalendar, {
      where: { id: In(ids) },
      order: { id: 'ASC' },
      lock: { mode: 'pessimistic_read' },
    });
  }

  async remove(id: string): Promise<void> {
    await (await this.transaction.manager()).delete(ClosedCalendar, { id });
  }

  /** What the contracts are called that go by it, the first of them. */
  async contractsGoingBy(id: string): Promise<string[]> {
    const manager = await this.transaction.manager();
    const rows = await manager.query<{ title: string }[]>(
      `SELECT title FROM contracts
       WHERE coverage -> 'calendarIds' @> to_jsonb($1::text)
         OR visit_hours -> 'avoidCalendarIds' @> to_jsonb($1::text)
       ORDER BY title, id LIMIT 10`,
      [id],
    );
    return rows.map(({ title }) => title);
  }

  async listOfIds(ids: string[]): Promise<ClosedCalendar[]> {
    if (ids.length === 0) return [];
    const manager = await this.transaction.manager();
    return manager.findBy(ClosedCalendar, { id: In(ids) });
  }

  /** The sites whose contracts leave the calendar’s days out. */
  async sitesGoingBy(id: string): Promise<string[]> {
    const manager = await this.transaction.manager();
    const rows = await manager.query<{ id: string }[]>(
      `SELECT DISTINCT s.site_id AS id FROM contracts c JOIN contract_sites s ON s.contract_id = c.id
       WHERE c.coverage -> 'calendarIds' @> to_jsonb($1::text)`,
      [id],
    );
    return rows.map((row) => row.id);
  }

  /** By name, then id; at most `count`, after the given sort key. */
  async list(after: string[] | undefined, count: number): Promise<ClosedCalendar[]> {
    const manager = await this.transaction.manager();
    const query = manager.createQueryBuilder(ClosedCalendar, 'calendar');
    if (after !== undefined) {
      query.andWhere('(calendar.name, calendar.id) > (:name, :id)', {
        name: after[0],
        id: after[1],
      });
    }
    return query.orderBy('calendar.name').addOrderBy('calendar.id').limit(count).getMany();
  }

  async update(calendar: ClosedCalendar, expectedVersion: number): Promise<void> {
    const manager = await this.transaction.manager();
    const { firmId: _firmId, id, ...columns } = calendar;
    const changed = await manager.update(ClosedCalendar, { id, version: expectedVersion }, columns);
    if (changed.affected !== 1) throw new StaleVersionError(expectedVersion);
  }
}
