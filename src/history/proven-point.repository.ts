import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { insertRows } from '../database/json-rows.js';
import { ProvenPoint } from './proven-point.entity.js';

@Injectable()
export class ProvenPointRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(points: Omit<ProvenPoint, 'firmId'>[]): Promise<void> {
    const [first, ...others] = points;
    if (first === undefined) return;
    const manager = await this.transaction.manager();
    const { text, values } = insertRows(manager, 'proven_points', [first, ...others]);
    this.transaction.writeLater(text, values);
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
