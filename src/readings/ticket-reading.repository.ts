import { Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { TicketReading } from './ticket-reading.entity.js';

@Injectable()
export class TicketReadingRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(reading: Omit<TicketReading, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(TicketReading, { ...reading });
  }

  /** Oldest first. */
  async listOfTicket(ticketId: string): Promise<TicketReading[]> {
    const manager = await this.transaction.manager();
    return manager.find(TicketReading, {
      where: { ticketId },
      order: { takenAt: 'ASC', id: 'ASC' },
    });
  }

  async findOfTicket(ticketId: string, id: string): Promise<TicketReading | null> {
    const manager = await this.transaction.manager();
    return manager.findOneBy(TicketReading, { ticketId, id });
  }

  async withdraw(id: string, withdrawalId: string): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.update(TicketReading, { id }, { withdrawalId });
  }

  async moveTo(ticketId: string, readingIds: string[]): Promise<void> {
    if (readingIds.length === 0) return;
    const manager = await this.transaction.manager();
    await manager.update(TicketReading, { id: In(readingIds) }, { ticketId });
  }
}
