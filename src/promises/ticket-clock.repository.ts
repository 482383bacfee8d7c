import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { uuidv7 } from 'uuidv7';
import type { TroubleClass } from '../contracts/class-of-trouble.js';
import type { ClockNews, ClockToKeep, KeptPromise, ToldPromises } from './kept-clock.js';

interface KeptBefore {
  readAt: Date | null;
  lookAt: Date | null;
  kept: KeptPromise[];
  told: ToldPromises;
}

/** What was heard of a station, newest last. */
export interface ClockObservation {
  trunk: string;
  node: string;
  function: string;
  outcome: 'works' | 'weak' | 'fails';
}

/** What the database knows of a ticket's clock, of several in one statement. */
export interface ReadClock {
  ticketId: string;
  siteId: string;
  asBuiltVersion: number;
  state: string;
  /** When reading began, by the clock of the database: who begins once something is there has read it. */
  readAt: Date;
  reportedAt: Date;
  recordedAt: Date;
  entries: { kind: string; at: string; saidBy: string; details: Record<string, unknown> }[];
  onSiteAt: string[];
  observations: ClockObservation[];
  /** The likeliest place as it was worked out last. */
  likeliest: { probability: number; silentIfSo: { trunk: string; node: string }[] } | null;
  keptClass: TroubleClass | null;
}

@Injectable()
export class TicketClockRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /** Of the tickets that there are, by their numbers. */
  async read(ticketIds: readonly string[]): Promise<ReadClock[]> {
    const manager = await this.transaction.manager();
    return manager.query<ReadClock[]>(FACTS, [ticketIds]);
  }

  /** The tickets that went by a contract when they were reckoned last, newest first; at most `count`. */
  async listOfContract(
    contractId: string,
    count: number,
  ): Promise<{ id: string; number: number; siteId: string }[]> {
    const manager = await this.transaction.manager();
    return manager.query(
      `SELECT t.id, t.number, t.site_id AS "siteId" FROM ticket_clocks k JOIN tickets t ON t.id = k.id
       WHERE k.contract_id = $1 ORDER BY t.opened_at DESC, t.number DESC LIMIT $2`,
      [contractId, count],
    );
  }

  /** Every ticket of a site that is open, or that a clock was reckoned for. */
  async listOfSite(siteId: string): Promise<string[]> {
    const manager = await this.transaction.manager();
    const rows = await manager.query<{ id: string }[]>(
      `SELECT id FROM tickets WHERE site_id = $1 AND state <> 'merged' AND (
         state <> 'closed' OR id IN (SELECT id FROM ticket_clocks)) ORDER BY number`,
      [siteId],
    );
    return rows.map(({ id }) => id);
  }

  /** What was kept before, held from others until the transaction ends. */
  async lock(ticketId: string, first: Pick<ClockToKeep, 'troubleClass'>): Promise<KeptBefore> {
    const manager = await this.transaction.manager();
    await manager.query(
      `INSERT INTO ticket_clocks (id, read_at, trouble_class, kept, told)
       VALUES ($1, '-infinity', $2, '[]', '{}') ON CONFLICT (firm_id, id) DO NOTHING`,
      [ticketId, first.troubleClass],
    );
    const [row] = await manager.query<KeptBefore[]>(
      `SELECT nullif(read_at, '-infinity') AS "readAt", look_at AS "lookAt", kept, told
       FROM ticket_clocks WHERE id = $1 FOR UPDATE`,
      [ticketId],
    );
    if (row === undefined) throw new Error('The row that was just kept is not there');
    return row;
  }

  async update(
    ticketId: string,
    clock: ClockToKeep & { readAt: Date; told: ToldPromises },
  ): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.query(
      `UPDATE ticket_clocks SET read_at = $2, contract_id = $3, trouble_class = $4, next_promise = $5,
         next_state = $6, due_at = $7, look_at = $8, kept = $9, told = $10 WHERE id = $1`,
      [
        ticketId,
        clock.readAt,
        clock.contractId,
        clock.troubleClass,
        clock.nextPromise,
        clock.nextState,
        clock.dueAt,
        clock.lookAt,
        JSON.stringify(clock.kept),
        JSON.stringify(clock.told),
      ],
    );
  }

  /** Writes in the ticket’s log what nobody said: it came by itself. */
  async note(ticketId: string, { kind, ...details }: ClockNews, at: Date): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.query(
      `INSERT INTO ticket_entries (id, ticket_id, kind, said_by, happened_at, recorded_at, details)
       VALUES ($1, $2, $3, 'Lastheard', $4, $4, $5)`,
      [uuidv7(), ticketId, kind, at, JSON.stringify(details)],
    );
  }
}

const FACTS = `
  SELECT t.id AS "ticketId", t.site_id AS "siteId", t.as_built_version AS "asBuiltVersion", t.state,
    now() AS "readAt",
    coalesce(first.happened_at, t.opened_at) AS "reportedAt",
    coalesce(first.recorded_at, (SELECT min(recorded_at) FROM ticket_entries WHERE ticket_id = t.id), t.opened_at)
      AS "recordedAt",
    (SELECT coalesce(json_agg(json_build_object('kind', kind, 'at', happened_at, 'saidBy', said_by, 'details', details)
       ORDER BY recorded_at, id), '[]') FROM ticket_entries
     WHERE ticket_id = t.id AND kind IN ('move', 'mending', 'pause', 'resume', 'trouble-class', 'breach-cause')) AS entries,
    (SELECT coalesce(json_agg(m.moved_at), '[]') FROM visit_moves m JOIN visit_tickets v ON v.visit_id = m.visit_id
     WHERE v.ticket_id = t.id AND m.to_state = 'under-way'
       AND m.moved_at >= coalesce(first.happened_at, t.opened_at)) AS "onSiteAt",
    (SELECT coalesce(json_agg(json_build_object('trunk', trunk, 'node', node, 'function', function, 'outcome', outcome)
       ORDER BY observed_at, id), '[]') FROM observations
     WHERE ticket_id = t.id AND withdrawal_id IS NULL) AS observations,
    (SELECT places -> 0 FROM ticket_locations WHERE id = t.id) AS likeliest,
    (SELECT trouble_class FROM ticket_clocks WHERE id = t.id AND read_at > '-infinity') AS "keptClass"
  FROM tickets t LEFT JOIN LATERAL (
    SELECT e.happened_at, e.recorded_at FROM observations o JOIN ticket_entries e ON e.id = o.entry_id
    WHERE o.ticket_id = t.id AND o.withdrawal_id IS NULL AND o.outcome <> 'works'
    ORDER BY e.happened_at, e.recorded_at LIMIT 1) first ON true
  WHERE t.id = ANY ($1) ORDER BY t.number`;
