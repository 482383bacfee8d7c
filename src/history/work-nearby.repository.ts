import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { WorkNearby } from './work-nearby.entity.js';

@Injectable()
export class WorkNearbyRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(work: Omit<WorkNearby, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(WorkNearby, { ...work });
  }

  /** The latest day first; at most `count`, after the given sort key. */
  async listOfSite(
    siteId: string,
    after: string[] | undefined,
    count: number,
  ): Promise<WorkNearby[]> {
    const manager = await this.transaction.manager();
    const query = manager
      .createQueryBuilder(WorkNearby, 'work')
      .where('work.siteId = :siteId', { siteId });
    if (after !== undefined)
      query.andWhere('(work.on, work.id) < (:on, :id)', { on: after[0], id: after[1] });
    return query.orderBy('work.on', 'DESC').addOrderBy('work.id', 'DESC').limit(count).getMany();
  }

  /** Kept from others until the transaction ends. */
  async findLocked(siteId: string, id: string): Promise<WorkNearby | null> {
    const manager = await this.transaction.manager();
    return manager.findOne(WorkNearby, {
      where: { siteId, id },
      lock: { mode: 'pessimistic_write' },
    });
  }

  async withdraw(
    id: string,
    withdrawal: Pick<WorkNearby, 'withdrawnBy' | 'withdrawnAt' | 'withdrawnBecause'>,
  ): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.update(WorkNearby, { id }, withdrawal);
  }
}
