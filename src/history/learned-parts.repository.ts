import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { ClassAtSite } from './class-at-site.js';
import type { ClassOfFirm } from './learned-rates.js';
import type { ClosedTicket, Repair, TicketExperience } from './ticket-experience.js';

/** So many changes of a site are learned at once. */
const MARKS_AT_ONCE = 25;

export interface LearningMarks {
  siteId: string;
  /** Every mark, and the tickets that they are of. */
  ids: string[];
  ticketIds: string[];
}

/** The parts that a firm's rates are learned from, each kept until what it is about changes. */
@Injectable()
export class LearnedPartsRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /** What of one site has changed since it was learned; null: nothing of any. */
  async marked(): Promise<LearningMarks | null> {
    const manager = await this.transaction.manager();
    const rows = await manager.query<{ siteId: string; id: string; ticketId: string | null }[]>(
      `SELECT site_id AS "siteId", id, ticket_id AS "ticketId" FROM to_learn
       WHERE site_id = (SELECT site_id FROM to_learn ORDER BY site_id LIMIT 1)
       ORDER BY id LIMIT $1`,
      [MARKS_AT_ONCE],
    );
    const [first] = rows;
    if (first === undefined) return null;
    const ticketIds = [...new Set(rows.flatMap(({ ticketId }) => ticketId ?? []))];
    return { siteId: first.siteId, ids: rows.map(({ id }) => id), ticketIds };
  }

  /** Those of these tickets that are closed, with all that they teach. */
  async closedTickets(ticketIds: readonly string[]): Promise<ClosedTicket[]> {
    const manager = await this.transaction.manager();
    const rows = await manager.query<ClosedTicket[]>(CLOSED_TICKETS, [ticketIds]);
    return rows.map((row) => ({
      ...row,
      entries: row.entries.map((one) => ({ ...one, happenedAt: new Date(one.happenedAt) })),
      looks: row.looks.map((one) => ({ ...one, lookedAt: new Date(one.lookedAt) })),
    }));
  }

  /** What these tickets teach now; those of them that are not closed any more are forgotten. */
  async keepTickets(
    ticketIds: readonly string[],
    learned: readonly TicketExperience[],
  ): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.query('DELETE FROM learned_tickets WHERE id = ANY ($1)', [ticketIds]);
    await manager.query(
      `INSERT INTO learned_tickets (id, site_id, closed_at, mended, repairs, is_found, quiet, looks)
       SELECT id, "siteId", "closedAt", mended, repairs, "isFound", quiet, nullif(looks, 'null')
       FROM json_to_recordset($1) AS learned (id uuid, "siteId" uuid, "closedAt" timestamptz, mended integer,
         repairs jsonb, "isFound" boolean, quiet double precision, looks jsonb)`,
      [JSON.stringify(learned)],
    );
  }

  /** What was ever repaired at a site, summed in the order of the tickets' ids. */
  async repairsAt(siteId: string): Promise<Repair[]> {
    const manager = await this.transaction.manager();
    return manager.query<Repair[]>(
      `SELECT component, mode, sum(events ORDER BY t.id) AS events
       FROM learned_tickets t, jsonb_to_recordset(t.repairs) AS one (component text, mode text, events double precision)
       WHERE t.site_id = $1 GROUP BY component, mode`,
      [siteId],
    );
  }

  /**
   * What a site says of its classes now; each that says something else than before is learned again. Says whether the marks were
   * still there: else another has learned them meanwhile, and nothing of this may be kept.
   */
  async keepSite(
    { siteId, ids }: LearningMarks,
    classes: readonly ClassAtSite[],
  ): Promise<boolean> {
    const manager = await this.transaction.manager();
    const [, taken] = await manager.query<[unknown, number]>(
      'DELETE FROM to_learn WHERE site_id = $1 AND id = ANY ($2)',
      [siteId, ids],
    );
    await manager.query(KEEP_CLASSES, [siteId, JSON.stringify(classes)]);
    return taken === ids.length;
  }

  /** The classes that were not learned by the same as others, by name. */
  async classesToLearn(learnedFrom: string): Promise<string[]> {
    const manager = await this.transaction.manager();
    const rows = await manager.query<{ className: string }[]>(
      `SELECT DISTINCT class_name AS "className" FROM learned_classes
       EXCEPT SELECT class_name FROM learned_rates WHERE learned_from = $1 ORDER BY 1`,
      [learnedFrom],
    );
    return rows.map(({ className }) => className);
  }

  async sitesOfClass(className: string): Promise<ClassOfFirm['sites']> {
    const manager = await this.transaction.manager();
    return manager.query<(ClassAtSite & { siteId: string })[]>(
      `SELECT site_id AS "siteId", class_name AS "className", rate_group AS "group", exposures, repaired
       FROM learned_classes WHERE class_name = $1 ORDER BY site_id`,
      [className],
    );
  }

  /** Since when there is a record, and whether anything was ever mended. */
  async extent(): Promise<{ since: Date | null; isMended: boolean }> {
    const manager = await this.transaction.manager();
    const [row] = await manager.query<{ since: Date | null; isMended: boolean }[]>(
      `SELECT (SELECT min(opened_at) FROM tickets) AS since,
         EXISTS (SELECT FROM learned_tickets WHERE mended > 0) AS "isMended"`,
    );
    return row ?? { since: null, isMended: false };
  }
}

const CLOSED_TICKETS = `
  SELECT t.id, t.site_id AS "siteId", t.as_built_version AS "asBuiltVersion", t.opened_at AS "openedAt",
    t.closed_at AS "closedAt",
    (SELECT coalesce(json_agg(json_build_object('ticketId', ticket_id, 'kind', kind, 'happenedAt', happened_at,
         'details', details) ORDER BY recorded_at, id), '[]')
     FROM ticket_entries WHERE ticket_id = t.id AND kind IN ('finding', 'mending')) AS entries,
    (SELECT coalesce(json_agg(DISTINCT jsonb_build_object('trunk', trunk, 'node', node, 'function', function)), '[]')
     FROM observations WHERE ticket_id = t.id AND outcome <> 'works' AND withdrawal_id IS NULL
       AND disconnected_below IS NULL) AS points,
    (SELECT coalesce(json_agg(json_build_object('place', place, 'part', part, 'seen', seen,
         'saidByKind', said_by_kind, 'lookedAt', looked_at) ORDER BY looked_at, id), '[]')
     FROM (SELECT * FROM looks WHERE ticket_id = t.id
           UNION ALL SELECT l.* FROM visit_tickets v JOIN looks l ON l.visit_id = v.visit_id
           WHERE v.ticket_id = t.id) AS look
     WHERE withdrawal_id IS NULL AND visit_withdrawal_id IS NULL) AS looks
  FROM tickets t WHERE t.id = ANY ($1) AND t.state = 'closed' ORDER BY t.id`;

const KEEP_CLASSES = `
  WITH said AS (
    SELECT * FROM json_to_recordset($2) AS one ("className" text, "group" text, exposures jsonb, repaired jsonb)),
  gone AS (
    DELETE FROM learned_classes WHERE site_id = $1 AND class_name NOT IN (SELECT "className" FROM said)
    RETURNING class_name),
  kept AS (
    INSERT INTO learned_classes AS kept (site_id, class_name, rate_group, exposures, repaired)
    SELECT $1, "className", "group", exposures, repaired FROM said
    ON CONFLICT (firm_id, class_name, site_id) DO UPDATE SET rate_group = excluded.rate_group,
      exposures = excluded.exposures, repaired = excluded.repaired
    WHERE (kept.rate_group, kept.exposures, kept.repaired)
      IS DISTINCT FROM (excluded.rate_group, excluded.exposures, excluded.repaired)
    RETURNING class_name)
  UPDATE learned_rates SET learned_from = ''
  WHERE class_name IN (SELECT class_name FROM gone UNION ALL SELECT class_name FROM kept)`;
