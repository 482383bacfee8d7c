import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { BusyDay, SitePlace } from './pose-quarter.js';

@Injectable()
export class QuarterFactsRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async listPlaces(siteIds: string[]): Promise<SitePlace[]> {
    const manager = await this.transaction.manager();
    return manager.query<SitePlace[]>(
      'SELECT id AS "siteId", name AS "siteName", latitude, longitude FROM sites WHERE id = ANY ($1) ORDER BY id',
      [siteIds],
    );
  }

  /** Changes with every visit for upkeep of the sites that is planned, moved, made or called off. */
  async stateOfUpkeep(siteIds: string[]): Promise<string> {
    const manager = await this.transaction.manager();
    const [row] = await manager.query<{ state: string }[]>(
      `SELECT coalesce(string_agg(id || ' ' || version, ',' ORDER BY id), '') AS state
       FROM visits WHERE site_id = ANY ($1) AND upkeep AND state IN ('planned', 'under-way', 'done')`,
      [siteIds],
    );
    return row?.state ?? '';
  }

  /** What is planned already with somebody, by day, from the first day until before the last. */
  async listBusy(from: string, until: string): Promise<BusyDay[]> {
    const manager = await this.transaction.manager();
    return manager.query<BusyDay[]>(
      `SELECT technician_id AS "technicianId", "on"::text AS "on",
         coalesce(sum(extract(epoch FROM until_time::time - from_time::time) / 60), 0)::int AS minutes,
         count(*) FILTER (WHERE from_time IS NULL AND upkeep)::int AS "upkeepVisits",
         count(*) FILTER (WHERE from_time IS NULL AND NOT upkeep)::int AS "callOuts"
       FROM visits WHERE "on" >= $1 AND "on" < $2 AND state IN ('planned', 'under-way') AND technician_id IS NOT NULL
       GROUP BY 1, 2 ORDER BY 1, 2`,
      [from, until],
    );
  }
}
