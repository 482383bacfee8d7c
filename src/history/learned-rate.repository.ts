import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { idOrNew } from '../shared/new-id.js';
import type { LearnedAtSites, LearnedClass } from './learned-rates.js';

@Injectable()
export class LearnedRateRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /** As far as it is about some sites, with what the whole firm found of each class. */
  async ofSites(siteIds: readonly string[]): Promise<LearnedAtSites[]> {
    const manager = await this.transaction.manager();
    return manager.query<LearnedAtSites[]>(
      `SELECT class_name AS "className", mode, years, class_rate AS "classRate", shares,
         (SELECT coalesce(sum(events.value::double precision), 0) FROM jsonb_each(sites) site,
            jsonb_each_text(site.value -> 'events') events) AS "classEvents",
         (SELECT coalesce(jsonb_object_agg(key, value), '{}') FROM jsonb_each(sites)
          WHERE key = ANY ($1)) AS sites
       FROM learned_rates ORDER BY class_name, mode`,
      [siteIds],
    );
  }

  /** Forgets classes that no site has any more, or all; says whether there were any. */
  async forget(which: 'gone' | 'all'): Promise<boolean> {
    const manager = await this.transaction.manager();
    const [, count] = await manager.query<[unknown, number]>(
      `DELETE FROM learned_rates
       WHERE $1 = 'all' OR class_name NOT IN (SELECT class_name FROM learned_classes)`,
      [which],
    );
    return count > 0;
  }

  /** All modes of each class at once. */
  async keep(learned: readonly LearnedClass[]): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.query(
      `INSERT INTO learned_rates (id, class_name, mode, learned_from, years, class_rate, shares, sites)
       SELECT id, "className", mode, "learnedFrom", years, "classRate", shares, sites
       FROM json_to_recordset($1) AS learned (id uuid, "className" text, mode text, "learnedFrom" text,
         years double precision, "classRate" double precision, shares jsonb, sites jsonb)
       ON CONFLICT (firm_id, class_name, mode) DO UPDATE SET learned_from = excluded.learned_from,
         years = excluded.years, class_rate = excluded.class_rate, shares = excluded.shares,
         sites = excluded.sites`,
      [JSON.stringify(learned.map((one) => ({ id: idOrNew(undefined), ...one })))],
    );
  }
}
