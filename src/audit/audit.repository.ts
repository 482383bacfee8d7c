import { Injectable } from '@nestjs/common';
import type { SelectQueryBuilder } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { AuditEntry } from './audit-entry.entity.js';
import { AuditTarget } from './audit-target.entity.js';

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
    const { from, until, target } = filter;
    // Where a target is asked for, its rows have the order.
    const [at, id] =
      target === undefined
        ? (['entry.happenedAt', 'entry.id'] as const)
        : (['named.happenedAt', 'named.entryId'] as const);
    if (target !== undefined) {
      query.innerJoin(AuditTarget, 'named', 'named.entryId = entry.id');
      query.andWhere('named.target = :target', { target });
    }
    if (from !== undefined) query.andWhere(`${at} >= :from`, { from });
    if (until !== undefined) query.andWhere(`${at} < :until`, { until });
    if (below !== undefined) {
      query.andWhere(`(${at}, ${id}) < (:at, :id)`, { at: below[0], id: below[1] });
    }
    narrow(query, filter);
    return query.orderBy(at, 'DESC').addOrderBy(id, 'DESC').limit(count).getMany();
  }

  /** Entries about reading from before then, of which at most so many go; how many that were. */
  async forgetReads(before: Date, atMost: number): Promise<number> {
    const manager = await this.transaction.manager();
    const [row] = await manager.query<{ gone: number }[]>('SELECT forget_reads($1, $2) AS gone', [
      before,
      atMost,
    ]);
    return row?.gone ?? 0;
  }
}

function narrow(query: SelectQueryBuilder<AuditEntry>, filter: AuditFilter): void {
  const { actor, action, outcome } = filter;
  if (actor !== undefined) query.andWhere('entry.actorId = :actor', { actor });
  if (action !== undefined) query.andWhere('entry.action = :action', { action });
  if (outcome !== undefined) query.andWhere('entry.outcome = :outcome', { outcome });
}
