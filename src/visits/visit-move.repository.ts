import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { VisitMove } from './visit-move.entity.js';

@Injectable()
export class VisitMoveRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(move: Omit<VisitMove, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(VisitMove, { ...move });
  }

  /** Oldest first; the newest `count`. */
  async listOfVisit(visitId: string, count: number): Promise<VisitMove[]> {
    const manager = await this.transaction.manager();
    const rows = await manager.find(VisitMove, {
      where: { visitId },
      order: { visitVersion: 'DESC' },
      take: count,
    });
    return rows.reverse();
  }
}
