import { Injectable } from '@nestjs/common';
import { Any } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { KeptPrediction } from './prediction.entity.js';

@Injectable()
export class PredictionRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(prediction: Omit<KeptPrediction, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(KeptPrediction, { ...prediction });
  }

  /** When the last one of a ticket was made, or null. */
  async lastMadeAt(ticketId: string): Promise<Date | null> {
    const manager = await this.transaction.manager();
    const [last] = await manager.find(KeptPrediction, {
      select: { id: true, madeAt: true },
      where: { ticketId },
      order: { madeAt: 'DESC' },
      take: 1,
    });
    return last?.madeAt ?? null;
  }

  async listOfTickets(ticketIds: string[]): Promise<KeptPrediction[]> {
    if (ticketIds.length === 0) return [];
    const manager = await this.transaction.manager();
    return manager.find(KeptPrediction, {
      where: { ticketId: Any(ticketIds) },
      order: { madeAt: 'ASC', id: 'ASC' },
    });
  }
}
