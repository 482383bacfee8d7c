import { Injectable } from '@nestjs/common';
import { Any } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { insertRows } from '../database/json-rows.js';
import { Observation } from './observation.entity.js';

/** How many observations a ticket has, withdrawn ones too, counted no further than was asked. */
interface Told {
  ticketId: string;
  count: number;
}

const COUNT = `
  SELECT ticket.id AS "ticketId", counted.count FROM unnest($1::uuid[]) AS ticket (id), LATERAL (
    SELECT count(*)::integer AS count FROM (
      SELECT FROM observations WHERE ticket_id = ticket.id LIMIT $2) AS first) AS counted`;

@Injectable()
export class ObservationRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /** How many their tickets had before: {@link Told}. Those are locked. */
  async insert(observations: Omit<Observation, 'firmId'>[], most: number): Promise<Told[]> {
    const [first, ...others] = observations;
    if (first === undefined) return [];
    const manager = await this.transaction.manager();
    const { text, values } = insertRows(manager, 'observations', [first, ...others]);
    // Together with the entry that brought them, where that still waits.
    this.transaction.writeLater(text, values);
    const ids = new Set(observations.map(({ ticketId }) => ticketId));
    return this.transaction.writeOut<Told>({ text: COUNT, values: [[...ids], most] });
  }

  async count(ticketId: string, most: number): Promise<number> {
    const manager = await this.transaction.manager();
    const [row] = await manager.query<Told[]>(COUNT, [[ticketId], most]);
    return row?.count ?? 0;
  }

  /** Oldest first, then by id; at most `count`, after the given sort key. */
  async pageOfTicket(
    ticketId: string,
    after: string[] | undefined,
    count: number,
  ): Promise<Observation[]> {
    const manager = await this.transaction.manager();
    const query = manager
      .createQueryBuilder(Observation, 'observation')
      .where('observation.ticketId = :ticketId', { ticketId });
    if (after !== undefined) {
      const [at, id] = after;
      query.andWhere('(observation.observedAt, observation.id) > (:at, :id)', { at, id });
    }
    return query
      .orderBy('observation.observedAt')
      .addOrderBy('observation.id')
      .limit(count)
      .getMany();
  }

  /** Oldest first. */
  async idsOfTicket(ticketId: string): Promise<string[]> {
    const manager = await this.transaction.manager();
    const [row] = await manager.query<{ ids: string[] }[]>(
      'SELECT array(SELECT id FROM observations WHERE ticket_id = $1 ORDER BY observed_at, id) AS ids',
      [ticketId],
    );
    return row?.ids ?? [];
  }

  /** Which of some are the ticket's, and how many others stand there. */
  async standing(
    ticketId: string,
    ids: readonly string[],
  ): Promise<{ own: string[]; others: number }> {
    const manager = await this.transaction.manager();
    const [row] = await manager.query<{ own: string[]; others: number }[]>(
      `SELECT array(SELECT id FROM observations WHERE ticket_id = $1 AND id = ANY ($2)) AS own,
         (SELECT count(*)::integer FROM observations
          WHERE ticket_id = $1 AND withdrawal_id IS NULL AND id <> ALL ($2)) AS others`,
      [ticketId, ids],
    );
    return row ?? { own: [], others: 0 };
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
