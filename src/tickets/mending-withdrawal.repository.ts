import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { TicketEntry } from './ticket-entry.entity.js';

/** What was said on a ticket, each in the table of its feature. */
const SAID = ['observations', 'readings', 'looks'] as const;

@Injectable()
export class MendingWithdrawalRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /** A mending of the ticket's own log, withdrawn or not. */
  async find(ticketId: string, id: string): Promise<TicketEntry | null> {
    const manager = await this.transaction.manager();
    const kinds = ['mending', 'withdrawn-mending'] as const;
    return manager.findOne(TicketEntry, {
      where: kinds.map((kind) => ({ ticketId, id, kind })),
    });
  }

  /** The entry that withdrew it. */
  async withdrawalOf(ticketId: string, mendingId: string): Promise<string | null> {
    const manager = await this.transaction.manager();
    const [row] = await manager.query<{ id: string }[]>(
      `SELECT id FROM ticket_entries
       WHERE ticket_id = $1 AND kind = 'withdrawal' AND details -> 'mendingIds' ? $2`,
      [ticketId, mendingId],
    );
    return row?.id ?? null;
  }

  /** Whether another ticket came in after it, with a follow-up visit of its own perhaps. */
  async isMergedSince({ ticketId, recordedAt, id }: TicketEntry): Promise<boolean> {
    const manager = await this.transaction.manager();
    const [row] = await manager.query<{ isMerged: boolean }[]>(
      `SELECT EXISTS (SELECT FROM ticket_entries
         WHERE ticket_id = $1 AND kind = 'merged-in' AND (recorded_at, id) > ($2, $3)) AS "isMerged"`,
      [ticketId, recordedAt, id],
    );
    return row?.isMerged ?? false;
  }

  /** It is a mending no more; what was said on the ticket since belongs to the period before it. */
  async withdraw({ ticketId, id }: TicketEntry): Promise<void> {
    const manager = await this.transaction.manager();
    for (const table of SAID)
      await manager.query(
        `UPDATE ${table} SET period = period - 1 WHERE ticket_id = $1 AND period > 0 AND entry_id IN (
           SELECT e.id FROM ticket_entries e JOIN ticket_entries m ON m.id = $2
           WHERE (e.recorded_at, e.id) > (m.recorded_at, m.id))`,
        [ticketId, id],
      );
    await manager.query(`UPDATE ticket_entries SET kind = 'withdrawn-mending' WHERE id = $1`, [id]);
  }
}
