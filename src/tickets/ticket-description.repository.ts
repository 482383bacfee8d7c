import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { jsonRows } from '../database/json-rows.js';
import type { KeptReading } from '../readings/reading.service.js';
import type { Heard } from '../reports/observation.js';
import type { KeptVisitWithdrawal } from '../reports/visit-withdrawal.service.js';
import type { TicketEntry } from './ticket-entry.entity.js';

/** All that a ticket is described by but its drawing. */
export interface TicketDescription {
  /** What was heard with the trunk whole and stands, oldest first. */
  heard: Heard[];
  /** Its answers, as recorded, but those withdrawn as the looks that they are. */
  answers: TicketEntry[];
  /** All that say something about it, oldest first. */
  readings: KeptReading[];
  /** The entries by which readings were withdrawn. */
  withdrawals: TicketEntry[];
  /** The same in the logs of visits. */
  withdrawalsOnVisits: KeptVisitWithdrawal[];
}

type InJson = { id: string } & Record<keyof TicketDescription, Record<string, unknown>[]>;

/** Reads what tickets are described by in one statement, from the tables of `reports`, `readings` and `looks` too. */
@Injectable()
export class TicketDescriptionRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async read(ticketIds: readonly string[]): Promise<Map<string, TicketDescription>> {
    const manager = await this.transaction.manager();
    const observations = jsonRows<Heard>(manager, 'observations');
    const entries = jsonRows<TicketEntry>(manager, 'ticket_entries');
    const readings = jsonRows<KeptReading>(manager, 'readings');
    const onVisits = jsonRows<KeptVisitWithdrawal>(manager, 'visit_withdrawals');
    const isStanding =
      'row.ticket_id = t.id AND row.withdrawal_id IS NULL AND row.disconnected_below IS NULL';
    const isAnswer = `row.ticket_id = t.id AND row.kind = 'answer' AND NOT EXISTS (
      SELECT FROM looks WHERE looks.id = row.id AND looks.withdrawal_id IS NOT NULL)`;
    const isOnVisit = `row.id IN (SELECT visit_withdrawal_id FROM readings AS row WHERE ${IS_ABOUT})`;
    const isWithdrawal = `row.id IN (SELECT withdrawal_id FROM readings AS row WHERE ${IS_ABOUT})`;
    const rows = await manager.query<InJson[]>(
      `SELECT t.id,
         ${observations.list(isStanding, 'row.observed_at, row.id')} AS heard,
         ${entries.list(isAnswer, 'row.recorded_at, row.id')} AS answers,
         ${readings.list(IS_ABOUT, 'row.taken_at, row.id')} AS readings,
         ${entries.list(isWithdrawal, 'row.id')} AS withdrawals,
         ${onVisits.list(isOnVisit, 'row.id')} AS "withdrawalsOnVisits"
       FROM tickets AS t WHERE t.id = ANY ($1)`,
      [ticketIds],
    );
    return new Map(
      rows.map(({ id, ...lists }) => [
        id,
        {
          heard: observations.read(lists.heard),
          answers: entries.read(lists.answers),
          readings: readings.read(lists.readings),
          withdrawals: entries.read(lists.withdrawals),
          withdrawalsOnVisits: onVisits.read(lists.withdrawalsOnVisits),
        },
      ]),
    );
  }
}

/** A reading of the ticket's own, or of a visit to it or to a ticket that was merged into it. */
const IS_ABOUT = `(row.ticket_id = t.id OR row.visit_id IN (
  WITH RECURSIVE together AS (
    SELECT t.id UNION SELECT tickets.id FROM tickets JOIN together ON tickets.merged_into = together.id)
  SELECT visit_id FROM visit_tickets JOIN together ON visit_tickets.ticket_id = together.id))`;
