import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { FunctionName, Outcome } from '../locator/index.js';

/** What was said last of a function at a node, on a ticket of the visit. */
export interface JobObservation {
  trunk: string;
  node: string;
  function: FunctionName;
  outcome: Outcome;
  saidBy: string;
}

export interface JobSheetFacts {
  technician: string | null;
  /** Tickets of the visit that are open, the oldest first. */
  tickets: { id: string; number: number; asBuiltVersion: number; said: JobObservation[] }[];
  lastVisits: { on: string; technician: string | null; purpose: string; workDone: string | null }[];
}

const LAST_VISITS = 5;

/** What a job sheet shows beside the location and the walk, in one statement. */
@Injectable()
export class JobSheetFactsRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async read(visitId: string): Promise<JobSheetFacts> {
    const manager = await this.transaction.manager();
    const [row] = await manager.query<JobSheetFacts[]>(FACTS, [visitId, LAST_VISITS]);
    if (row === undefined) throw new Error('The visit that was just read is not there');
    return row;
  }
}

const SAID = `
  SELECT DISTINCT ON (trunk, node, function) trunk, node, function, outcome, said_by, observed_at
  FROM observations WHERE ticket_id = t.id AND withdrawal_id IS NULL AND disconnected_below IS NULL AND period = t.period
  ORDER BY trunk, node, function, observed_at DESC, id DESC`;

const FACTS = `
  SELECT p.name AS technician,
    (SELECT coalesce(json_agg(json_build_object('id', t.id, 'number', t.number, 'asBuiltVersion', t.as_built_version,
       'said', (SELECT coalesce(json_agg(json_build_object('trunk', trunk, 'node', node, 'function', function,
          'outcome', outcome, 'saidBy', said_by) ORDER BY observed_at, trunk, node, function), '[]') FROM (${SAID}) s))
       ORDER BY t.number), '[]')
     FROM visit_tickets o JOIN tickets t ON t.id = o.ticket_id
     WHERE o.visit_id = v.id AND t.state NOT IN ('closed', 'merged')) AS tickets,
    (SELECT coalesce(json_agg(json_build_object('on', "on", 'technician', technician, 'purpose', purpose,
       'workDone', work_done) ORDER BY "on" DESC, id DESC), '[]') FROM (
       SELECT w.id, w."on", q.name AS technician, w.purpose, w.work_done FROM visits w LEFT JOIN people q ON q.id = w.technician_id
       WHERE w.site_id = v.site_id AND w.state = 'done' AND w.id <> v.id AND w."on" <= v."on"
       ORDER BY w."on" DESC, w.id DESC LIMIT $2) earlier) AS "lastVisits"
  FROM visits v LEFT JOIN people p ON p.id = v.technician_id WHERE v.id = $1`;
