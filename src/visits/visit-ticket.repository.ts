import { Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { VisitTicket } from './visit-ticket.entity.js';

@Injectable()
export class VisitTicketRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /** The tickets of each of the visits, in the order of their ids. */
  async ticketsOfVisits(visitIds: string[]): Promise<Map<string, string[]>> {
    const manager = await this.transaction.manager();
    const rows = await manager.find(VisitTicket, {
      where: { visitId: In(visitIds) },
      order: { ticketId: 'ASC' },
    });
    const tickets = new Map<string, string[]>(visitIds.map((visitId) => [visitId, []]));
    for (const { visitId, ticketId } of rows) tickets.get(visitId)?.push(ticketId);
    return tickets;
  }

  /** Makes the visit be for these tickets and no others. */
  async replace(visitId: string, ticketIds: string[]): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.delete(VisitTicket, { visitId });
    if (ticketIds.length === 0) return;
    await manager.insert(
      VisitTicket,
      ticketIds.map((ticketId) => ({ visitId, ticketId })),
    );
  }
}
