import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { LocatedTicket, TicketTexts } from './ticket-facts.js';

/** What was worked out last of a ticket, in JSON as it is answered. */
export interface KeptLocation {
  fingerprint: string;
  officeChecks: string;
  predicted: string;
  /** The whole answer; null where it was too long to keep, or not wanted. */
  answer: string | null;
}

export interface ReadTicket {
  ticket: LocatedTicket;
  texts: TicketTexts;
  /** When reading began, by the clock of the database: who begins once something is there has read it. */
  readAt: Date;
  kept: KeptLocation | null;
}

/** Everything that a location depends on but the drawing and the site's past, in one statement; null: no such ticket. */
@Injectable()
export class TicketFactsRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /** But for an answer with one of these fingerprints. */
  async read(ticketId: string, notWanted: readonly string[]): Promise<ReadTicket | null> {
    const manager = await this.transaction.manager();
    const [row] = await manager.query<(LocatedTicket & TicketTexts & KeptRow)[]>(FACTS, [
      ticketId,
      notWanted,
    ]);
    if (row === undefined) return null;
    const { id, siteId, asBuiltVersion, state, openedAt, period, readAt, ...rest } = row;
    const { heard, entries, readings, looks, nearby, rates, errors, headEndNow } = rest;
    const { fingerprint, officeChecks, predicted, answer } = rest;
    return {
      ticket: { id, siteId, asBuiltVersion, state, openedAt, period },
      texts: { heard, entries, readings, looks, nearby, rates, errors, headEndNow },
      readAt,
      kept: fingerprint === null ? null : { fingerprint, officeChecks, predicted, answer },
    };
  }

  /** Tickets that are being worked on: of a site, or of the whole firm. */
  async listOpen(siteId: string | null): Promise<{ id: string; siteId: string }[]> {
    const manager = await this.transaction.manager();
    return manager.query<{ id: string; siteId: string }[]>(
      `SELECT id, site_id AS "siteId" FROM tickets
       WHERE state NOT IN ('closed', 'merged') AND ($1::uuid IS NULL OR site_id = $1) ORDER BY number`,
      [siteId],
    );
  }
}

interface KeptRow {
  readAt: Date;
  fingerprint: string | null;
  officeChecks: string;
  predicted: string;
  answer: string | null;
}

/** Visits to the ticket, and to those that were merged into it. */
const VISITS_TO_IT = 'SELECT visit_id FROM visit_tickets WHERE ticket_id = ANY (joined.ids)';

/**
 * The period of a row by all mendings of the tickets that are one now: those of the log that brought it before its entry, those
 * of the others before its instant. A ticket by itself has them counted already.
 */
const period = (table: string, at: string) => `
  CASE WHEN cardinality(joined.ids) = 1 OR ${table}.period IS NULL THEN ${table}.period
  ELSE (SELECT count(*) FROM ticket_entries m JOIN ticket_entries e ON e.id = ${table}.entry_id
    WHERE m.kind = 'mending' AND m.ticket_id = ANY (joined.ids)
      AND CASE WHEN m.ticket_id = e.ticket_id THEN (m.recorded_at, m.id) < (e.recorded_at, e.id)
        ELSE m.happened_at < ${table}.${at} END) END`;

const FACTS = `
  SELECT t.id, t.site_id AS "siteId", t.as_built_version AS "asBuiltVersion", t.state, t.opened_at AS "openedAt",
    CASE WHEN cardinality(joined.ids) = 1 THEN t.period ELSE (SELECT count(*)::int FROM ticket_entries
       WHERE kind = 'mending' AND ticket_id = ANY (joined.ids)) END AS period, now() AS "readAt",
    kept.fingerprint, kept.office_checks::text AS "officeChecks", kept.predicted::text AS predicted,
    CASE WHEN kept.fingerprint <> ALL ($2) THEN kept.answer END AS answer,
    (SELECT coalesce(json_agg(json_build_object('id', id, 'trunk', trunk, 'node', node, 'function', function,
       'outcome', outcome, 'saidBy', said_by, 'saidByKind', said_by_kind, 'how', how, 'observedAt', observed_at,
       'period', ${period('observations', 'observed_at')}, 'disconnectedBelow', disconnected_below,
       'withdrawalId', withdrawal_id) ORDER BY observed_at, id), '[]')::text
     FROM observations WHERE ticket_id = t.id) AS heard,
    (SELECT coalesce(json_agg(json_build_object('kind', kind, 'saidByKind', said_by_kind, 'happenedAt', happened_at,
       'details', details) ORDER BY recorded_at, id), '[]')::text
     FROM ticket_entries WHERE ticket_id = t.id AND (kind IN ('move', 'answer') OR kind = 'note' AND details ? 'step')
       OR ticket_id = ANY (joined.ids) AND kind = 'mending') AS entries,
    (SELECT coalesce(json_agg(json_build_object('id', id, 'kind', kind, 'trunk', trunk, 'node', node, 'core', core,
       'value', value, 'unit', unit, 'uncertainty', uncertainty, 'reading', reading, 'takenBy', taken_by,
       'takenByKind', taken_by_kind, 'takenAt', taken_at, 'period', ${period('readings', 'taken_at')},
       'withdrawalId', coalesce(withdrawal_id, visit_withdrawal_id))
       ORDER BY taken_at, id), '[]')::text
     FROM readings WHERE ticket_id = t.id OR visit_id IN (${VISITS_TO_IT})) AS readings,
    (SELECT coalesce(json_agg(json_build_object('id', id, 'place', place, 'part', part, 'group', group_name,
       'seen', seen, 'saidBy', said_by, 'saidByKind', said_by_kind, 'lookedAt', looked_at, 'period', ${period('looks', 'looked_at')},
       'withdrawalId', coalesce(withdrawal_id, visit_withdrawal_id)) ORDER BY looked_at, id), '[]')::text
     FROM looks WHERE ticket_id = t.id OR visit_id IN (${VISITS_TO_IT})) AS looks,
    (SELECT coalesce(json_agg(json_build_object('id', id, 'rooms', rooms, 'on', "on") ORDER BY "on", id), '[]')::text
     FROM works_nearby WHERE site_id = t.site_id AND withdrawn_at IS NULL) AS nearby,
    (SELECT coalesce(json_agg(json_build_object('className', class_name, 'mode', mode, 'years', years,
       'classRate', class_rate, 'shares', shares, 'siteRate', sites -> t.site_id::text -> 'rate',
       'events', sites -> t.site_id::text -> 'events') ORDER BY class_name, mode), '[]')::text
     FROM learned_rates) AS rates,
    coalesce((SELECT learned::text FROM learned_errors), 'null') AS errors,
    coalesce((SELECT json_build_object('supplyVolts', v.supply_volts, 'supplyOhms', v.supply_ohms,
       'stationAmps', v.station_amps, 'coreOhmsPerKm', v.core_ohms_per_km)::text
     FROM sites s JOIN as_built_versions v ON v.site_id = s.id AND v.number = s.as_built_version
     WHERE s.id = t.site_id), 'null') AS "headEndNow"
  FROM tickets t LEFT JOIN ticket_locations kept ON kept.id = t.id
  CROSS JOIN LATERAL (
    WITH RECURSIVE together AS (
      SELECT t.id UNION SELECT tickets.id FROM tickets JOIN together ON tickets.merged_into = together.id)
    SELECT array_agg(id) AS ids FROM together) AS joined
  WHERE t.id = $1`;
