import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { ProvenPoint } from './proven-point.entity.js';

@Injectable()
export class ProvenPointRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(points: Omit<ProvenPoint, 'firmId'>[]): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(ProvenPoint, points);
  }

  /** Oldest test first, points as they were sent. */
  async listOfVisit(visitId: string): Promise<ProvenPoint[]> {
    const manager = await this.transaction.manager();
    return manager.find(ProvenPoint, {
      where: { visitId },
      order: { testedAt: 'ASC', walkTestId: 'ASC', id: 'ASC' },
    });
  }
}
