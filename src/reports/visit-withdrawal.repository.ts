import { Injectable } from '@nestjs/common';
import { Any } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { VisitWithdrawal } from './visit-withdrawal.entity.js';

@Injectable()
export class VisitWithdrawalRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(withdrawal: Omit<VisitWithdrawal, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(VisitWithdrawal, { ...withdrawal });
  }

  async listOfIds(ids: string[]): Promise<VisitWithdrawal[]> {
    if (ids.length === 0) return [];
    const manager = await this.transaction.manager();
    return manager.findBy(VisitWithdrawal, { id: Any(ids) });
  }

  /** As recorded; the newest `count`. */
  async listOfVisit(visitId: string, count: number): Promise<VisitWithdrawal[]> {
    const manager = await this.transaction.manager();
    const rows = await manager.find(VisitWithdrawal, {
      where: { visitId },
      order: { recordedAt: 'DESC', id: 'DESC' },
      take: count,
    });
    return rows.reverse();
  }
}
