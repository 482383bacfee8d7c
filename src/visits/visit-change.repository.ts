import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { VisitChange } from './visit-change.entity.js';

@Injectable()
export class VisitChangeRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(change: Omit<VisitChange, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(VisitChange, { ...change });
  }

  /** Oldest first; the newest `count`. */
  async listOfVisit(visitId: string, count: number): Promise<VisitChange[]> {
    const manager = await this.transaction.manager();
    const rows = await manager.find(VisitChange, {
      where: { visitId },
      order: { visitVersion: 'DESC' },
      take: count,
    });
    return rows.reverse();
  }
}
