import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { FoundAtSiteDto } from './found-at-site.dto.js';

/** Reads what the tickets of a firm say of its parts over time. */
@Injectable()
export class HistoryRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /**
   * What was heard on a site's closed tickets, and earlier on one ticket of it, before an instant: of what the technician
   * heard working the last of each kind, and whatever did not work. A walk test on a visit is a ticket to itself. As JSON, a
   * list of `HeardOnTicket`: there are thousands, and they are read on another thread.
   */
  async heardBefore(siteId: string, ticketId: string, before: Date): Promise<string> {
    const manager = await this.transaction.manager();
    const [row] = await manager.query<{ heard: string }[]>(
      `SELECT coalesce(json_agg(heard ORDER BY "observedAt", "ticketId", period, trunk, node, function, outcome,
         "saidByKind"), '[]')::text AS heard
       FROM (
         SELECT o.ticket_id AS "ticketId", o.period, o.trunk, o.node, o.function, o.outcome,
           o.said_by_kind AS "saidByKind", max(o.observed_at) AS "observedAt"
         FROM tickets t, LATERAL (
           SELECT * FROM observations
           WHERE ticket_id = t.id AND observed_at < $3 AND withdrawal_id IS NULL
             AND disconnected_below IS NULL AND (outcome <> 'works' OR said_by_kind = 'technician')
           -- So that it goes by the tickets of the site, never through the observations of all sites.
           OFFSET 0) AS o
         WHERE t.site_id = $1 AND (t.state = 'closed' OR t.id = $2)
         GROUP BY 1, 2, 3, 4, 5, 6, 7
         UNION ALL
         SELECT visit_id, 0, trunk, node, function, 'works', 'technician', max(tested_at)
         FROM proven_points WHERE site_id = $1 AND tested_at < $3 AND visit_withdrawal_id IS NULL
         GROUP BY visit_id, trunk, node, function) AS heard`,
      [siteId, ticketId, before],
    );
    return row?.heard ?? '[]';
  }

  /** The newest findings of a site that name a place, and how many there are. */
  async foundAt(siteId: string, most: number): Promise<{ items: FoundAtSiteDto[]; count: number }> {
    const manager = await this.transaction.manager();
    const rows = await manager.query<(FoundAtSiteDto & { count: number })[]>(
      `SELECT e.id, e.ticket_id AS "ticketId", t.number AS "ticketNumber", e.details -> 'place' AS place,
         e.details ->> 'component' AS component, e.details ->> 'mode' AS mode, e.said_by AS "foundBy",
         e.happened_at AS "foundAt", (count(*) OVER ())::integer AS count
       FROM tickets t, LATERAL (
         SELECT * FROM ticket_entries
         WHERE ticket_id = t.id AND kind = 'finding' AND details ->> 'place' IS NOT NULL
         -- So that it goes by the tickets of the site.
         OFFSET 0) AS e
       WHERE t.site_id = $1
       ORDER BY e.happened_at DESC, e.id DESC LIMIT $2`,
      [siteId, most],
    );
    return {
      items: rows.map(({ count: _count, ...found }) => found),
      count: rows[0]?.count ?? 0,
    };
  }
}
