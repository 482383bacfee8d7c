import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { StaleVersionError } from '../shared/domain-error.js';
import { FirmWorkTimes } from './firm-work-times.entity.js';
import type { WorkedVisit } from './work-times.js';

/** The newest visits tell how long things take; older ones are of other people and other tools. */
const VISITS_LEARNED_FROM = 500;

@Injectable()
export class WorkTimesRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async find(): Promise<FirmWorkTimes | null> {
    return (await this.transaction.manager()).findOneBy(FirmWorkTimes, {});
  }

  /** Puts a row in place of the version before its own, or of nothing where its version is 1; else it is stale. */
  async put(row: Omit<FirmWorkTimes, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    const before = row.version - 1;
    if (before > 0) {
      const { affected } = await manager.update(FirmWorkTimes, { version: before }, { ...row });
      if (affected !== 1) throw new StaleVersionError(before);
      return;
    }
    const insert = manager
      .createQueryBuilder()
      .insert()
      .into(FirmWorkTimes)
      .values({ ...row });
    const inserted = await insert.orIgnore().returning('version').execute();
    if ((inserted.raw as unknown[]).length !== 1) throw new StaleVersionError(before);
  }

  /** Call-outs that were finished, newest first, with what was recorded on their tickets meanwhile. */
  async finishedCallOuts(): Promise<WorkedVisit[]> {
    const manager = await this.transaction.manager();
    const rows: Record<keyof WorkedVisit, string>[] = await manager.query(FINISHED, [
      VISITS_LEARNED_FROM,
    ]);
    return rows.map(({ minutes, findings, mendings }) => ({
      minutes: Number(minutes),
      findings: Number(findings),
      mendings: Number(mendings),
    }));
  }
}

const FINISHED = `
  SELECT extract(epoch FROM v.finished_at - v.started_at) / 60 AS minutes,
    count(e.id) FILTER (WHERE e.kind = 'finding') AS findings,
    count(e.id) FILTER (WHERE e.kind = 'mending') AS mendings
  FROM (SELECT * FROM visits
    WHERE kind = 'call-out' AND started_at IS NOT NULL AND finished_at > started_at
    ORDER BY "on" DESC, id DESC LIMIT $1) v
  LEFT JOIN visit_tickets t ON t.firm_id = v.firm_id AND t.visit_id = v.id
  LEFT JOIN ticket_entries e ON e.firm_id = v.firm_id AND e.ticket_id = t.ticket_id
    AND e.kind IN ('finding', 'mending') AND e.happened_at BETWEEN v.started_at AND v.finished_at
  GROUP BY v.firm_id, v.id, v.started_at, v.finished_at`;
