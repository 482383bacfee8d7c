import { Injectable } from '@nestjs/common';
import { findById } from '../database/find-by-id.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { StaleVersionError } from '../shared/domain-error.js';
import type { VisitState } from './visit-lifecycle.js';
import { VisitTicket } from './visit-ticket.entity.js';
import { Visit } from './visit.entity.js';

export interface VisitFilter {
  site?: string;
  ticket?: string;
  technician?: string;
  on?: string;
  /** The first day. */
  from?: string;
  /** The day after the last. */
  until?: string;
  state?: VisitState;
}

@Injectable()
export class VisitRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(visit: Omit<Visit, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(Visit, { ...visit });
  }

  find(id: string): Promise<Visit | null> {
    return findById(this.transaction, Visit, id);
  }

  /** Reads a visit and keeps others from changing it until the transaction ends. */
  async findLocked(id: string): Promise<Visit | null> {
    const manager = await this.transaction.manager();
    return manager.findOne(Visit, { where: { id }, lock: { mode: 'pessimistic_write' } });
  }

  /** By day, then id; at most `count`, after the given sort key. */
  async list(filter: VisitFilter, after: string[] | undefined, count: number): Promise<Visit[]> {
    const manager = await this.transaction.manager();
    const query = manager.createQueryBuilder(Visit, 'visit');
    const { site, ticket, technician, on, from, until, state } = filter;
    if (site !== undefined) query.andWhere('visit.siteId = :site', { site });
    if (ticket !== undefined) {
      const ofTicket = query.subQuery().select('of.visitId').from(VisitTicket, 'of');
      const ids = ofTicket.where('of.ticketId = :ticket').getQuery();
      query.andWhere(`visit.id IN ${ids}`, { ticket });
    }
    if (technician !== undefined)
      query.andWhere('visit.technicianId = :technician', { technician });
    if (on !== undefined) query.andWhere('visit.on = :on', { on });
    if (from !== undefined) query.andWhere('visit.on >= :from', { from });
    if (until !== undefined) query.andWhere('visit.on < :until', { until });
    if (state !== undefined) query.andWhere('visit.state = :state', { state });
    if (after !== undefined) {
      query.andWhere('(visit.on, visit.id) > (:day, :id)', { day: after[0], id: after[1] });
    }
    return query.orderBy('visit.on').addOrderBy('visit.id').limit(count).getMany();
  }

  async update(visit: Visit, expectedVersion: number): Promise<void> {
    const manager = await this.transaction.manager();
    const { firmId: _firmId, id, ...columns } = visit;
    const { affected } = await manager.update(Visit, { id, version: expectedVersion }, columns);
    if (affected !== 1) throw new StaleVersionError(expectedVersion);
  }
}
