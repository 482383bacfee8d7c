import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { FirmLearnedErrors } from './learned-errors.entity.js';
import type { LearnedErrors, PastCall } from './learned-errors.js';
import type { LookCounts } from './ticket-experience.js';

/** The newest tell how things are; older ones are of other people. */
const CALLS_LEARNED_FROM = 1000;
const TICKETS_WITH_LOOKS_LEARNED_FROM = 5000;

@Injectable()
export class LearnedErrorsRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async known(): Promise<LearnedErrors | null> {
    const manager = await this.transaction.manager();
    return (await manager.findOneBy(FirmLearnedErrors, {}))?.learned ?? null;
  }

  /** Puts what was learned in place of what was before, or of nothing; null: nothing is learned any more. */
  async replace(learned: LearnedErrors | null): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.query('DELETE FROM learned_errors');
    if (learned !== null)
      await manager.query('INSERT INTO learned_errors (learned) VALUES ($1)', [
        JSON.stringify(learned),
      ]);
  }

  /** Closed tickets on which something was said not to work, and somebody said what was found: the newest. */
  async closedCalls(): Promise<PastCall[]> {
    const manager = await this.transaction.manager();
    return manager.query<PastCall[]>(
      `SELECT is_found AS "isFound", quiet FROM learned_tickets WHERE is_found IS NOT NULL
       ORDER BY closed_at DESC, id LIMIT $1`,
      [CALLS_LEARNED_FROM],
    );
  }

  /** Looks at what was broken on closed tickets, also those on visits to them: of the newest of these tickets. */
  async looks(): Promise<LookCounts> {
    const manager = await this.transaction.manager();
    const counts = (['office', 'technician'] as const).flatMap((kind) =>
      (['missed', 'seen'] as const).map(
        (what) =>
          `coalesce(sum((looks -> '${kind}' -> '${what}')::integer), 0)::integer AS ${kind}_${what}`,
      ),
    );
    const [row] = await manager.query<Record<string, number>[]>(
      `SELECT ${counts.join(', ')} FROM (
         SELECT looks FROM learned_tickets WHERE looks IS NOT NULL
         ORDER BY closed_at DESC, id LIMIT $1) AS newest`,
      [TICKETS_WITH_LOOKS_LEARNED_FROM],
    );
    const of = (kind: string) => ({
      missed: row?.[`${kind}_missed`] ?? 0,
      seen: row?.[`${kind}_seen`] ?? 0,
    });
    return { office: of('office'), technician: of('technician') };
  }
}
