import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { TimedVisit } from './visit-time.service.js';

/** When visits are, as instants: by their sites' clocks. */
@Injectable()
export class VisitTimeRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /**
   * Visits still to be made, or being made, by the same technician at the same time; those without hours clash with none.
   * Two that are planned at once for one technician wait for each other.
   */
  async listClashing(visit: TimedVisit): Promise<string[]> {
    const { id, siteId, technicianId, on, fromTime, untilTime } = visit;
    if (technicianId === null || fromTime === null || untilTime === null) return [];
    const manager = await this.transaction.manager();
    await manager.query('SELECT pg_advisory_xact_lock(hashtextextended($1, 82))', [technicianId]);
    const rows = await manager.query<{ id: string }[]>(
      `SELECT v.id FROM visits v JOIN sites s ON s.id = v.site_id, sites own
       WHERE own.id = $2 AND v.technician_id = $1 AND v.id <> $3 AND v.state IN ('planned', 'under-way')
         AND v.from_time IS NOT NULL AND v."on" BETWEEN $4::date - 2 AND $4::date + 2
         AND (v."on" + v.from_time::time) AT TIME ZONE s.zone
           < ($4::date + $6::time) AT TIME ZONE own.zone
         AND ($4::date + $5::time) AT TIME ZONE own.zone
           < (v."on" + v.until_time::time) AT TIME ZONE s.zone
       ORDER BY v."on", v.id LIMIT 20`,
      [technicianId, siteId, id, on, fromTime, untilTime],
    );
    return rows.map((row) => row.id);
  }

  /** Whether the day, or the hours of it, are over at a site. */
  async isOver(
    { on, untilTime, zone }: { on: string; untilTime: string | null; zone: string },
    now: Date,
  ): Promise<boolean> {
    const manager = await this.transaction.manager();
    const [row] = await manager.query<{ isOver: boolean }[]>(
      `SELECT ($1::date + $2::time) AT TIME ZONE $3 <= $4 AS "isOver"`,
      [on, untilTime ?? '24:00', zone, now],
    );
    return row?.isOver === true;
  }
}
