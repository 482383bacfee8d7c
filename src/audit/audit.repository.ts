import { Injectable } from '@nestjs/common';
import type { SelectQueryBuilder } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { AuditEntry } from './audit-entry.entity.js';

export interface AuditFilter {
  from?: Date;
  until?: Date;
  actor?: string;
  action?: string;
  target?: string;
  outcome?: string;
}

@Injectable()
export class AuditRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  insert(entry: Omit<AuditEntry, 'firmId'>): void {
    this.transaction.writeLater(
      `INSERT INTO record_entries
         (id, happened_at, actor_kind, actor_id, role, action, target, outcome, address, request_id)
       VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`,
      [
        entry.id,
        entry.happenedAt,
        entry.actorKind,
        entry.actorId,
        entry.role,
        entry.action,
        entry.target,
        entry.outcome,
        entry.address,
        entry.requestId,
      ],
    );
  }

  /** Newest first; at most `count`, below the given sort key. */
  async list(
    filter: AuditFilter,
    below: string[] | undefined,
    count: number,
  ): Promise<AuditEntry[]> {
    const manager = await this.transaction.manager();
    const query = manager.createQueryBuilder(AuditEntry, 'entry');
    narrow(query, filter);
    if (below !== undefined) {
      query.andWhere('(entry.happenedAt, entry.id) < (:at, :id)', { at: below[0], id: below[1] });
    }
    return query
      .orderBy('entry.happenedAt', 'DESC')
      .addOrderBy('entry.id', 'DESC')
      .limit(count)
      .getMany();
  }
}

function narrow(query: SelectQueryBuilder<AuditEntry>, filter: AuditFilter): void {
  const { from, until, actor, action, target, outcome } = filter;
  if (from !== undefined) query.andWhere('entry.happenedAt >= :from', { from });
  if (until !== undefined) query.andWhere('entry.happenedAt < :until', { until });
  if (actor !== undefined) query.andWhere('entry.actorId = :actor', { actor });
  if (action !== undefined) query.andWhere('entry.action = :action', { action });
  if (outcome !== undefined) query.andWhere('entry.outcome = :outcome', { outcome });
  if (target !== undefined) {
    query.andWhere(
      'EXISTS (SELECT FROM jsonb_each_text(entry.target) AS named WHERE named.value = :target)',
      { target },
    );
  }
}
