import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { VisitReading } from './visit-reading.entity.js';

@Injectable()
export class VisitReadingRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(reading: Omit<VisitReading, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(VisitReading, { ...reading });
  }

  /** By when they were taken, then id; at most `count`, after the given sort key. */
  async list(visitId: string, after: string[] | undefined, count: number): Promise<VisitReading[]> {
    const manager = await this.transaction.manager();
    const query = manager
      .createQueryBuilder(VisitReading, 'reading')
      .where('reading.visitId = :visitId', { visitId });
    if (after !== undefined) {
      query.andWhere('(reading.takenAt, reading.id) > (:takenAt, :id)', {
        takenAt: after[0],
        id: after[1],
      });
    }
    return query.orderBy('reading.takenAt').addOrderBy('reading.id').limit(count).getMany();
  }
}
