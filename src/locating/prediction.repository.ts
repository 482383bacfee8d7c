import { Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { Prediction } from './prediction.entity.js';

@Injectable()
export class PredictionRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(prediction: Omit<Prediction, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(Prediction, { ...prediction });
  }

  /** When the last one of a ticket was made, or null. */
  async lastMadeAt(ticketId: string): Promise<Date | null> {
    const manager = await this.transaction.manager();
    const [last] = await manager.find(Prediction, {
      select: { id: true, madeAt: true },
      where: { ticketId },
      order: { madeAt: 'DESC' },
      take: 1,
    });
    return last?.madeAt ?? null;
  }

  async listOfTickets(ticketIds: string[]): Promise<Prediction[]> {
    if (ticketIds.length === 0) return [];
    const manager = await this.transaction.manager();
    return manager.find(Prediction, {
      where: { ticketId: In(ticketIds) },
      order: { madeAt: 'ASC', id: 'ASC' },
    });
  }
}
