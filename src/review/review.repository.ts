import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { FirmCosts, ReviewedTicket, ReviewedVisit, SiteFailure } from './review-question.js';

/** Days of the sites' calendars, half-open. */
interface Days {
  from: string;
  until: string;
}

/** What the firm wrote down of its work: all that costs go by but prices and times. */
export type WorkRecord = Pick<
  FirmCosts,
  'callOuts' | 'upkeep' | 'mendings' | 'parts' | 'callOutsWithMending'
>;

/**
 * Of the firm's latest visits and mendings so many at most tell what work takes, both from one day on: a mending whose
 * visit is left out, or the other way round, would make the shares of one among the other wrong.
 */
const LEARNED_FROM = 500;

/** Reads what a review is made of, in a few statements over all sites of a contract. */
@Injectable()
export class ReviewRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /** Tickets that were open on one of the days, by number, at most `count`; what is said on them as JSON. */
  async listTickets(siteIds: readonly string[], { from, until }: Days, count: number) {
    const manager = await this.transaction.manager();
    return manager.query<ReviewedTicket[]>(TICKETS, [siteIds, from, until, count]);
  }

  /** Visits that were done on the days, in their order. */
  async listVisits(siteIds: readonly string[], { from, until }: Days, count: number) {
    const manager = await this.transaction.manager();
    return manager.query<ReviewedVisit[]>(VISITS, [siteIds, from, until, count]);
  }

  /** Tickets on which something was found and mended, from a day on, at most `count`, oldest first. */
  async listFailures(siteIds: readonly string[], { from, until }: Days, count: number) {
    const manager = await this.transaction.manager();
    return manager.query<SiteFailure[]>(FAILURES, [siteIds, from, until, count]);
  }

  /** From which day there is a record: the contract began, or one that it follows, and somebody wrote down a first ticket. */
  async recordedSince(contractId: string): Promise<string> {
    const manager = await this.transaction.manager();
    const [row] = await manager.query<{ since: string }[]>(SINCE, [contractId]);
    if (row === undefined) throw new Error('A query without groups gave no row');
    return row.since;
  }

  async workRecord(): Promise<WorkRecord> {
    const manager = await this.transaction.manager();
    const [row] = await manager.query<WorkRecord[]>(WORK, [LEARNED_FROM]);
    if (row === undefined) throw new Error('A query without groups gave no row');
    return row;
  }

  async clientName(clientId: string): Promise<string> {
    const manager = await this.transaction.manager();
    const rows = await manager.query<{ name: string }[]>('SELECT name FROM clients WHERE id = $1', [
      clientId,
    ]);
    return rows[0]?.name ?? '';
  }
}

const TICKETS = `
  SELECT t.id AS "ticketId", t.number, t.site_id AS "siteId", t.state, t.follow_up_due_on::text AS "followUpDueOn",
    to_json(t.closed_at) #>> '{}' AS "closedAt",
    (t.opened_at AT TIME ZONE s.zone)::date >= $2 AS "isOfYear",
    (SELECT coalesce(json_agg(json_build_object('trunk', trunk, 'node', node, 'function', function, 'outcome', outcome,
       'at', observed_at) ORDER BY observed_at, id), '[]') FROM observations
     WHERE ticket_id = t.id AND withdrawal_id IS NULL AND disconnected_below IS NULL) AS said,
    (SELECT coalesce(json_agg(json_build_object('at', happened_at, 'from', details ->> 'from', 'to', details ->> 'to')
       ORDER BY recorded_at, id), '[]') FROM ticket_entries WHERE ticket_id = t.id AND kind = 'move') AS moves,
    (SELECT coalesce(json_agg(json_build_object('kind', kind, 'happenedAt', happened_at, 'details', details)
       ORDER BY recorded_at, id), '[]') FROM ticket_entries
     WHERE ticket_id = t.id AND kind IN ('finding', 'mending')) AS work
  FROM tickets t JOIN sites s ON s.id = t.site_id
  WHERE t.site_id = ANY ($1) AND t.state <> 'merged' AND (t.opened_at AT TIME ZONE s.zone)::date < $3
    AND (t.closed_at IS NULL OR (t.closed_at AT TIME ZONE s.zone)::date >= $2)
  ORDER BY t.number LIMIT $4`;

const VISITS = `
  SELECT v.id, v.site_id AS "siteId", v.kind, v."on"::text AS "on", p.name AS technician, v.work_done AS "workDone",
    round(extract(epoch FROM v.finished_at - v.started_at) / 60)::int AS "minutesOnSite",
    v.travel_minutes AS "travelMinutes",
    (SELECT coalesce(json_agg(t.number ORDER BY t.number), '[]') FROM visit_tickets o JOIN tickets t ON t.id = o.ticket_id
     WHERE o.visit_id = v.id) AS tickets,
    (SELECT coalesce(json_agg(json_build_object('name', name, 'remark', remark, 'drawn', drawn, 'signedAt', signed_at)
       ORDER BY signed_at, id), '[]') FROM signatures WHERE visit_id = v.id) AS signatures
  FROM visits v LEFT JOIN people p ON p.id = v.technician_id
  WHERE v.site_id = ANY ($1) AND v.state = 'done' AND v."on" >= $2 AND v."on" < $3
  ORDER BY v."on", v.id LIMIT $4`;

const FAILURES = `
  SELECT t.site_id AS "siteId", to_json(t.opened_at) #>> '{}' AS at
  FROM tickets t JOIN sites s ON s.id = t.site_id
  WHERE t.site_id = ANY ($1) AND t.state <> 'merged'
    AND (t.opened_at AT TIME ZONE s.zone)::date >= $2 AND (t.opened_at AT TIME ZONE s.zone)::date < $3
    AND EXISTS (SELECT FROM ticket_entries WHERE ticket_id = t.id AND kind = 'finding' AND details ->> 'place' IS NOT NULL)
    AND EXISTS (SELECT FROM ticket_entries WHERE ticket_id = t.id AND kind = 'mending')
  ORDER BY t.opened_at LIMIT $4`;

const SINCE = `
  WITH RECURSIVE followed AS (
    SELECT id, renewed_from, "from" FROM contracts WHERE id = $1
    UNION SELECT c.id, c.renewed_from, c."from" FROM contracts c JOIN followed ON c.id = followed.renewed_from)
  SELECT greatest((SELECT min("from") FROM followed), (SELECT min(opened_at)::date FROM tickets))::text AS since`;

const taken = (kind: string) => `
  (SELECT json_build_object('visits', count(*), 'meanMinutes', avg(minutes), 'meanLog', avg(ln(minutes)), 'logDeviation', stddev_samp(ln(minutes)),
     'meanTravelMinutes', avg(travel)) FROM done WHERE ${kind})`;

const WORK = `
  WITH latest_done AS (
    SELECT id, kind, upkeep, greatest(extract(epoch FROM finished_at - started_at) / 60, 1)::double precision AS minutes,
      travel_minutes::double precision AS travel, "on" AS day
    FROM visits WHERE state = 'done' AND finished_at > started_at ORDER BY "on" DESC, id DESC LIMIT $1),
  latest_mended AS (
    SELECT e.ticket_id, e.details, (e.happened_at AT TIME ZONE s.zone)::date AS day
    FROM ticket_entries e JOIN tickets t ON t.id = e.ticket_id JOIN sites s ON s.id = t.site_id
    WHERE e.kind = 'mending' ORDER BY e.happened_at DESC, e.id DESC LIMIT $1),
  since AS (
    SELECT coalesce(greatest((SELECT min(day) FROM latest_done HAVING count(*) = $1),
      (SELECT min(day) FROM latest_mended HAVING count(*) = $1)), '-infinity') AS day),
  done AS (SELECT * FROM latest_done WHERE day >= (SELECT day FROM since)),
  mended AS (SELECT * FROM latest_mended WHERE day >= (SELECT day FROM since))
  SELECT ${taken("kind = 'call-out'")} AS "callOuts", ${taken("kind = 'planned' AND upkeep")} AS upkeep,
    (SELECT count(*)::int FROM mended) AS mendings,
    (SELECT coalesce(json_agg(json_build_object('name', name, 'quantity', quantity) ORDER BY name), '[]') FROM (
       SELECT lower(part ->> 'name') AS name, sum((part ->> 'quantity')::double precision) AS quantity
       FROM mended CROSS JOIN jsonb_array_elements(coalesce(details -> 'parts', '[]')) part GROUP BY 1) used) AS parts,
    (SELECT count(DISTINCT done.id)::int FROM done JOIN visit_tickets o ON o.visit_id = done.id
       JOIN mended ON mended.ticket_id = o.ticket_id WHERE done.kind = 'call-out') AS "callOutsWithMending"`;
