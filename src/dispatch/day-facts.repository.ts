import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';

/** Rows of the day as they lie in the database. */
export interface DayJobRow {
  id: string;
  kind: 'visit' | 'ticket';
  siteId: string;
  siteName: string;
  zone: string;
  latitude: number | null;
  longitude: number | null;
  technicianId: string | null;
  upkeep: boolean;
  /** Agreed hours, by the wall clock of the site; "08:30". */
  fromTime: string | null;
  untilTime: string | null;
  tickets: { id: string; number: number }[];
  /** The first instants that are promised of its tickets, in minutes since the day's midnight at the site. */
  respondBy: number | null;
  restoreBy: number | null;
  /** Now, in the same minutes: below 0 before the day, above 1440 after it. */
  nowMinute: number;
}

/** A visit that somebody is on. */
export interface VisitUnderWayRow {
  technicianId: string;
  latitude: number | null;
  longitude: number | null;
  upkeep: boolean;
  untilTime: string | null;
  /** In minutes since the day's midnight at the site. */
  startedMinute: number;
}

/** What is to be done on a day, in one statement. */
@Injectable()
export class DayFactsRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /** Visits of the day that are still to be made, then open tickets without any such visit, the oldest first. */
  async list(day: string, count: number, now: Date): Promise<DayJobRow[]> {
    const manager = await this.transaction.manager();
    return manager.query<DayJobRow[]>(JOBS, [day, count, now]);
  }

  /** Where technicians are at this moment, and since when. */
  async listUnderWay(day: string): Promise<VisitUnderWayRow[]> {
    const manager = await this.transaction.manager();
    return manager.query<VisitUnderWayRow[]>(
      `SELECT visits.technician_id AS "technicianId", sites.latitude, sites.longitude, visits.upkeep,
         visits.until_time AS "untilTime",
         floor(extract(epoch FROM started_at - $1::date::timestamp AT TIME ZONE sites.zone) / 60)::integer AS "startedMinute"
       FROM visits JOIN sites ON sites.id = visits.site_id
       WHERE visits.state = 'under-way' AND visits.technician_id IS NOT NULL`,
      [day],
    );
  }

  /** Whether a visit or a ticket is there. */
  async has(jobId: string): Promise<boolean> {
    const manager = await this.transaction.manager();
    const rows = await manager.query<object[]>(
      'SELECT FROM visits WHERE id = $1 UNION ALL SELECT FROM tickets WHERE id = $1',
      [jobId],
    );
    return rows.length > 0;
  }
}

const JOBS = `
  SELECT jobs.id, jobs.kind, jobs.site_id AS "siteId", sites.name AS "siteName", sites.zone, sites.latitude,
    sites.longitude, jobs.technician_id AS "technicianId", jobs.upkeep,
    jobs.from_time AS "fromTime", jobs.until_time AS "untilTime",
    coalesce((
      SELECT json_agg(json_build_object('id', tickets.id, 'number', tickets.number) ORDER BY tickets.number)
      FROM tickets WHERE tickets.id = ANY (jobs.ticket_ids)), '[]') AS tickets,
    floor(extract(epoch FROM $3::timestamptz - $1::date::timestamp AT TIME ZONE sites.zone) / 60)::integer AS "nowMinute",
    due.respond_by AS "respondBy", due.restore_by AS "restoreBy"
  FROM (
    (SELECT id, 'visit' AS kind, site_id, technician_id, upkeep, from_time, until_time, 0 AS number,
       ARRAY(SELECT ticket_id FROM visit_tickets WHERE visit_id = visits.id) AS ticket_ids
     FROM visits WHERE "on" = $1 AND state = 'planned' ORDER BY id LIMIT $2)
    UNION ALL
    (SELECT id, 'ticket', site_id, NULL, false, NULL, NULL, number, ARRAY[id]
     FROM tickets
     WHERE state NOT IN ('closed', 'merged', 'proven') AND NOT EXISTS (
       SELECT FROM visit_tickets JOIN visits ON visits.id = visit_tickets.visit_id
       WHERE visit_tickets.ticket_id = tickets.id AND visits.state IN ('planned', 'under-way'))
     ORDER BY number LIMIT $2)
  ) jobs JOIN sites ON sites.id = jobs.site_id
  CROSS JOIN LATERAL (
    SELECT min(minute) FILTER (WHERE next_promise = 'response') AS respond_by,
      min(minute) FILTER (WHERE next_promise = 'restore') AS restore_by
    FROM (
      SELECT next_promise,
        floor(extract(epoch FROM due_at - $1::date::timestamp AT TIME ZONE sites.zone) / 60)::integer AS minute
      FROM ticket_clocks WHERE id = ANY (jobs.ticket_ids)) clocks) due
  ORDER BY jobs.kind DESC, jobs.number, jobs.id
  LIMIT $2`;
