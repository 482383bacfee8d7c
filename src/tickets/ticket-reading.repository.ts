import { Injectable } from '@nestjs/common';
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

  /** All that one ticket has goes to another. */
  async moveAll(fromTicketId: string, toTicketId: string): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.update(TicketReading, { ticketId: fromTicketId }, { ticketId: toTicketId });
  }
}
