import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { NextPromiseDto } from '../tickets/ticket.dto.js';
import type { TicketState } from '../tickets/ticket-lifecycle.js';
import type { Language } from '../words/index.js';
import type { DeskSiteDto, GoingDto } from './desk.dto.js';
import type { StripFacts } from '../drawing/strip-of.js';

export interface DeskRow extends StripFacts {
  id: string;
  number: number;
  state: TicketState;
  openedBy: string;
  openedAt: Date;
  followUpDueOn: string | null;
  urgentReason: string | null;
  site: DeskSiteDto;
  places: (StripFacts['places'][number] & {
    words: string;
    /** Left out by an older process. */
    inLanguages?: Readonly<Record<Language, string>>;
  })[];
  going: GoingDto | null;
  nextPromise: NextPromiseDto | null;
}

/** Of all open tickets, beyond those that are listed too. */
interface OpenCounts {
  count: number;
  /** The highest number. */
  newest: number;
  /** With a higher number than the asker knows. */
  newer: number;
}

/** What the desk shows, in one statement. */
@Injectable()
export class DeskRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /** `after`: a ticket’s number; null counts no newer ones. */
  async listOpen(most: number, after: number | null): Promise<OpenCounts & { rows: DeskRow[] }> {
    const manager = await this.transaction.manager();
    const rows = await manager.query<(DeskRow & OpenCounts)[]>(OPEN, [most, after]);
    const { count = 0, newest = 0, newer = 0 } = rows[0] ?? {};
    return { rows, count, newest, newer };
  }
}

const OPEN = `
  WITH waiting AS MATERIALIZED (
    SELECT *, (count(*) OVER ())::integer AS count, max(number) OVER () AS newest,
      (count(*) FILTER (WHERE number > $2::integer) OVER ())::integer AS newer FROM tickets
    WHERE state NOT IN ('closed', 'merged')
    ORDER BY (SELECT due_at FROM ticket_clocks clock WHERE clock.id = tickets.id) NULLS LAST, opened_at, number LIMIT $1)
  SELECT t.count, t.newest, t.newer, t.id, t.number, t.state, t.opened_by AS "openedBy", t.opened_at AS "openedAt",
    t.follow_up_due_on::text AS "followUpDueOn", t.urgent_reason AS "urgentReason",
    CASE WHEN clock.next_promise IS NOT NULL THEN json_build_object('promise', clock.next_promise,
      'state', clock.next_state, 'dueAt', clock.due_at) END AS "nextPromise",
    json_build_object('id', s.id, 'name', s.name, 'zone', s.zone,
      'servesEmergencyCalls', s.serves_emergency_calls) AS site,
    coalesce(said.list, '[]') AS said,
    coalesce(kept.places, '[]') AS places,
    coalesce(drawn.list, '[]') AS trunks,
    going.visit AS going
  FROM waiting t
  JOIN sites s ON s.id = t.site_id
  LEFT JOIN ticket_locations kept ON kept.id = t.id
  LEFT JOIN ticket_clocks clock ON clock.id = t.id
  LEFT JOIN LATERAL (
    SELECT json_agg(json_build_object('trunk', last.trunk, 'node', last.node, 'outcome', last.outcome)) AS list
    FROM (SELECT DISTINCT ON (trunk, node, function) trunk, node, outcome FROM observations o
      WHERE o.ticket_id = t.id AND o.withdrawal_id IS NULL AND o.disconnected_below IS NULL
        AND o.period = t.period
      ORDER BY trunk, node, function, observed_at DESC, id DESC) last) said ON true
  LEFT JOIN LATERAL (
    SELECT json_agg(json_build_object('trunk', one.trunk, 'nodes', one.nodes) ORDER BY one.trunk) AS list
    FROM (SELECT n.trunk, json_agg(n.node ORDER BY n.position) AS nodes FROM as_built_nodes n
      WHERE n.site_id = t.site_id AND n.since_version <= t.as_built_version
        AND (n.until_version IS NULL OR n.until_version > t.as_built_version)
      GROUP BY n.trunk) one) drawn ON true
  LEFT JOIN LATERAL (
    SELECT json_build_object('visitId', v.id, 'technician', p.name, 'on', v."on",
      'isThere', v.state = 'under-way') AS visit
    FROM visit_tickets vt JOIN visits v ON v.id = vt.visit_id LEFT JOIN people p ON p.id = v.technician_id
    WHERE vt.ticket_id = t.id AND v.state IN ('planned', 'under-way')
    ORDER BY v.state = 'under-way' DESC, v."on", v.id LIMIT 1) going ON true
  ORDER BY clock.due_at NULLS LAST, t.opened_at, t.number`;
