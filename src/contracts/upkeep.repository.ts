import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { UpkeepVisit } from './kept-visits.js';

/** A site that a contract covers, with its visits for upkeep since the contract began. */
export interface SiteUpkeep {
  contractId: string;
  siteId: string;
  zone: string;
  visits: UpkeepVisit[];
}

/** Of ten years of a site, one every two days. */
const MOST_OF_A_SITE = 2000;

@Injectable()
export class UpkeepRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /** Of all covered sites, or one, by contract and site, in one statement. */
  async list(contractIds: string[], siteId: string | null): Promise<SiteUpkeep[]> {
    const manager = await this.transaction.manager();
    return manager.query<SiteUpkeep[]>(
      `SELECT k.id AS "contractId", s.id AS "siteId", s.zone, upkeep.visits
       FROM contracts k JOIN contract_sites c ON c.contract_id = k.id JOIN sites s ON s.id = c.site_id
       CROSS JOIN LATERAL (
         SELECT coalesce(json_agg(json_build_object('id', id, 'on', "on", 'isDone', state = 'done')), '[]') AS visits
         FROM (SELECT id, "on"::text AS "on", state FROM visits
           WHERE site_id = s.id AND upkeep AND "on" >= k."from" AND state IN ('planned', 'under-way', 'done')
           ORDER BY visits."on", id LIMIT ${MOST_OF_A_SITE}) v) upkeep
       WHERE k.id = ANY ($1) AND ($2::uuid IS NULL OR s.id = $2) ORDER BY k.id, s.id`,
      [contractIds, siteId],
    );
  }
}
