import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { FirmLearnedErrors } from './learned-errors.entity.js';
import type { ClosedCall, LearnedErrors, PastLook } from './learned-errors.js';

/** The newest tell how things are; older ones are of other people. */
const CALLS_LEARNED_FROM = 1000;
const LOOKS_LEARNED_FROM = 5000;

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

  /** Closed tickets on which something was said not to work, and somebody said what was found, newest first. */
  async closedCalls(): Promise<ClosedCall[]> {
    const manager = await this.transaction.manager();
    return manager.query<ClosedCall[]>(CALLS, [CALLS_LEARNED_FROM]);
  }

  /** Looks about closed tickets, also those on visits to them, newest first. */
  async pastLooks(): Promise<PastLook[]> {
    const manager = await this.transaction.manager();
    return manager.query<PastLook[]>(LOOKS, [LOOKS_LEARNED_FROM]);
  }
}

const CALLS = `
  SELECT t.site_id AS "siteId", t.opened_at AS "openedAt", told.points, work.found > 0 AS "isFound"
  FROM (SELECT * FROM tickets WHERE state = 'closed' ORDER BY closed_at DESC, id LIMIT $1) t
  CROSS JOIN LATERAL (
    SELECT json_agg(DISTINCT jsonb_build_object('trunk', trunk, 'node', node, 'function', function)) AS points
    FROM observations WHERE ticket_id = t.id AND outcome <> 'works' AND withdrawal_id IS NULL
      AND disconnected_below IS NULL) told
  CROSS JOIN LATERAL (
    SELECT count(*) AS entries,
      count(*) FILTER (WHERE kind = 'mending' OR jsonb_typeof(details -> 'place') = 'object') AS found
    FROM ticket_entries WHERE ticket_id = t.id AND kind IN ('finding', 'mending')) work
  WHERE told.points IS NOT NULL AND work.entries > 0
  ORDER BY t.closed_at DESC, t.id`;

const LOOKS = `
  SELECT t.site_id AS "siteId", t.id AS "ticketId", l.place, l.part, l.seen, l.said_by_kind AS "saidByKind",
    l.looked_at AS "lookedAt"
  FROM looks l
  LEFT JOIN visit_tickets v ON v.visit_id = l.visit_id
  JOIN tickets t ON t.id = coalesce(l.ticket_id, v.ticket_id)
  WHERE t.state = 'closed' AND l.withdrawal_id IS NULL AND l.visit_withdrawal_id IS NULL
  ORDER BY l.looked_at DESC, l.id LIMIT $1`;
