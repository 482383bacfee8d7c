import { Injectable } from '@nestjs/common';
import { Any } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { insertRows } from '../database/json-rows.js';
import { Observation } from './observation.entity.js';

@Injectable()
export class ObservationRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(observations: Omit<Observation, 'firmId'>[]): Promise<void> {
    const [first, ...others] = observations;
    if (first === undefined) return;
    const manager = await this.transaction.manager();
    const { text, values } = insertRows(manager, 'observations', [first, ...others]);
    // Together with the entry that brought them, where that still waits.
    this.transaction.writeLater(text, values);
    await this.transaction.writeOut();
  }

  /** Oldest first. */
  async listOfTicket(ticketId: string): Promise<Observation[]> {
    const manager = await this.transaction.manager();
    return manager.find(Observation, {
      where: { ticketId },
      order: { observedAt: 'ASC', id: 'ASC' },
    });
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
    await manager.update(Observation, { id: Any(observationIds) }, { ticketId });
  }
}
