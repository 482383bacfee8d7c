import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { FoundAtSiteDto } from './found-at-site.dto.js';

/** What a site's past says at an instant, in JSON: there may be thousands of rows, and they are read on another thread. */
export interface PastTexts {
  /** A list of `HeardOnTicket`. */
  heardBefore: string;
  /** Of findings, and the mendings that ended them, those that bear on it, as recorded: a list of `WorkEntry`. */
  work: string;
}

/** What tells one place from the others, as `placeParts` does. */
const PLACE = `
  CASE details #>> '{place,kind}' WHEN 'head-end' THEN '["head-end"]'
  WHEN 'port' THEN jsonb_build_array('port', details #> '{place,trunk}')
  WHEN 'span' THEN jsonb_build_array('span', details #> '{place,trunk}', details #> '{place,to}')
  ELSE jsonb_build_array(details #> '{place,kind}', details #> '{place,trunk}', details #> '{place,node}') END`;

const PAST = `
  -- What is between two mendings of a ticket goes with the one that ends it.
  WITH entries AS (
    SELECT e.*, count(*) FILTER (WHERE e.kind = 'mending') OVER (PARTITION BY e.ticket_id ORDER BY e.recorded_at, e.id)
      - (e.kind = 'mending')::integer AS stretch
    FROM tickets other, LATERAL (
      SELECT id, ticket_id, kind, happened_at, recorded_at, details, ${PLACE} AS place, details ->> 'component' AS component
      FROM ticket_entries
      WHERE ticket_id = other.id AND (kind = 'mending' OR kind = 'finding' AND details ->> 'place' IS NOT NULL)
      -- So that it goes by the tickets of the site, never through the findings of all sites.
      OFFSET 0) AS e
    WHERE other.site_id = $1),
  ended AS (
    SELECT *, (array_agg(id) FILTER (WHERE kind = 'mending') OVER stretches)[1] AS mending_id,
      max(happened_at) FILTER (WHERE kind = 'mending') OVER stretches AS mended_at,
      bool_or(details ->> 'mending' = 'lasting') FILTER (WHERE kind = 'mending') OVER stretches AS is_lasting
    FROM entries WINDOW stretches AS (PARTITION BY ticket_id, stretch)),
  -- The last word about each place.
  found AS (
    SELECT DISTINCT ON (ticket_id, stretch, place) id, mending_id, place, component,
      CASE WHEN mended_at < $3 THEN mended_at ELSE happened_at END AS touched_at,
      CASE WHEN mended_at < $3 AND is_lasting THEN mended_at END AS renewed_at
    FROM ended WHERE kind = 'finding'
    ORDER BY ticket_id, stretch, place, recorded_at DESC, id DESC),
  bearing AS (
    (SELECT DISTINCT ON (place, component) id, mending_id FROM found WHERE touched_at < $3
     ORDER BY place, component, touched_at DESC, id DESC)
    UNION ALL
    (SELECT DISTINCT ON (place, component) id, mending_id FROM found WHERE renewed_at IS NOT NULL
     ORDER BY place, component, renewed_at DESC, id DESC))
  SELECT
    (SELECT coalesce(json_agg(json_build_object('ticketId', ticket_id, 'kind', kind, 'happenedAt', happened_at, 'details', details)
       ORDER BY recorded_at, id), '[]')::text
     FROM entries WHERE id IN (SELECT id FROM bearing UNION SELECT mending_id FROM bearing)) AS work,
    (SELECT coalesce(json_agg(heard ORDER BY "observedAt", "ticketId", period, trunk, node, function, outcome,
       "saidByKind"), '[]')::text
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
       GROUP BY visit_id, trunk, node, function) AS heard) AS "heardBefore"`;

/** Reads what the tickets of a firm say of its parts over time. */
@Injectable()
export class HistoryRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /**
   * What was heard on a site's closed tickets, and earlier on one ticket of it, before an instant: of what the technician
   * heard working the last of each kind, and whatever did not work. A walk test on a visit is a ticket to itself. And what was done
   * there: of each place and component, of any number of findings, those that say when hands were last on it before then, and when it
   * was last made new (`siteHistory` needs no others).
   */
  async pastOf(siteId: string, ticketId: string, before: Date): Promise<PastTexts> {
    const manager = await this.transaction.manager();
    const [row] = await manager.query<PastTexts[]>(PAST, [siteId, ticketId, before]);
    return row ?? { heardBefore: '[]', work: '[]' };
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
