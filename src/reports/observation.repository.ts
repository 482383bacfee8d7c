import { Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { Observation } from './observation.entity.js';

@Injectable()
export class ObservationRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(observations: Omit<Observation, 'firmId'>[]): Promise<void> {
    if (observations.length === 0) return;
    const manager = await this.transaction.manager();
    await manager.insert(
      Observation,
      observations.map((observation) => ({ ...observation })),
    );
  }

  /** Oldest first. */
  async listOfTicket(ticketId: string): Promise<Observation[]> {
    const manager = await this.transaction.manager();
    return manager.find(Observation, {
      where: { ticketId },
      order: { observedAt: 'ASC', id: 'ASC' },
    });
  }

  /** The trunks on which each of the tickets has something that does not work. */
  async trunksOfTickets(ticketIds: string[]): Promise<Map<string, string[]>> {
    const manager = await this.transaction.manager();
    const rows = await manager.query<{ ticket_id: string; trunks: string[] }[]>(
      `SELECT ticket_id, array_agg(DISTINCT trunk ORDER BY trunk) AS trunks
       FROM observations
       WHERE ticket_id = ANY($1) AND outcome <> 'works' AND withdrawal_id IS NULL
       GROUP BY ticket_id`,
      [ticketIds],
    );
    return new Map(rows.map((row) => [row.ticket_id, row.trunks]));
  }

  async findOfTicket(ticketId: string, id: string): Promise<Observation | null> {
    const manager = await this.transaction.manager();
    return manager.findOneBy(Observation, { ticketId, id });
  }

  async withdraw(id: string, withdrawalId: string): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.update(Observation, { id }, { withdrawalId });
  }

  async moveTo(ticketId: string, observationIds: string[]): Promise<void> {
    if (observationIds.length === 0) return;
    const manager = await this.transaction.manager();
    await manager.update(Observation, { id: In(observationIds) }, { ticketId });
  }
}
