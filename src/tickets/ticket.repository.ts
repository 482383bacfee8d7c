import { Injectable } from '@nestjs/common';
import { Any } from 'typeorm';
import { findById, readRow } from '../database/find-by-id.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { OPEN_STATES, type TicketState } from './ticket-lifecycle.js';
import type { Language } from '../words/index.js';
import type { TicketEntry } from './ticket-entry.entity.js';
import { Ticket } from './ticket.entity.js';

export interface TicketFilter {
  siteId?: string;
  number?: number;
  states?: readonly TicketState[];
  sort: 'newest' | 'time-left';
  /** The sort key of the one before: its number, or when it is due and its number. */
  after?: string[];
}

/** What a ticket is opened with; all else of it follows. */
export type NewTicket = Pick<
  Ticket,
  'id' | 'siteId' | 'asBuiltVersion' | 'openedBy' | 'openedAt' | 'urgentReason' | 'period'
>;

export type NewTicketEntry = Omit<TicketEntry, 'firmId'>;

/** A ticket that a report may join. */
export interface OpenTicket {
  id: string;
  asBuiltVersion: number;
  trunks: string[];
}

export interface ClosedFilter {
  siteId?: string;
  /** The first instant. */
  from?: Date;
  /** After the last instant. */
  until?: Date;
}

interface Likeliest {
  words: string;
  /** Left out by an older process. */
  inLanguages?: Readonly<Record<Language, string>>;
  probability: number;
}

interface NextPromise {
  promise: 'response' | 'restore';
  state: 'running' | 'paused' | 'breached';
  dueAt: string | null;
}

export interface ListedTicket {
  ticket: Ticket;
  likeliest: Likeliest | null;
  nextPromise: NextPromise | null;
  /** When it is due as the sort has it. */
  dueKey: string;
}

@Injectable()
export class TicketRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /**
   * Opens a ticket under the firm's next number. Its first entry waits: who may write one is asked of the tickets that
   * there were before the statement.
   */
  async open(ticket: NewTicket, entry: NewTicketEntry): Promise<Ticket> {
    const manager = await this.transaction.manager();
    const { id, siteId, asBuiltVersion, openedBy, openedAt, urgentReason, period } = ticket;
    const [row] = await manager.query<Record<string, unknown>[]>(
      `WITH numbered AS (
         UPDATE firms SET last_ticket_number = last_ticket_number + 1 RETURNING last_ticket_number)
       INSERT INTO tickets
         (id, number, site_id, as_built_version, state, opened_by, opened_at, period, version, urgent_reason)
       SELECT $1, last_ticket_number, $2, $3, 'reported', $4, $5, $6, 1, $7 FROM numbered RETURNING *`,
      [id, siteId, asBuiltVersion, openedBy, openedAt, period, urgentReason],
    );
    if (row === undefined) throw new Error('The firm of the transaction is not in the database');
    this.transaction.writeLater(ENTER, valuesOf(entry));
    return readRow(manager, Ticket, row);
  }

  /**
   * Appends an entry to an open ticket that need not have been read: all else of it stays, but for why it is urgent where
   * that is said; null where none is open.
   */
  join(entry: NewTicketEntry, urgentReason: string | null): Promise<Ticket | null> {
    return this.changed(
      `WITH changed AS (
         UPDATE tickets SET version = version + 1, urgent_reason = coalesce($10, urgent_reason)
         WHERE id = $2 AND state = ANY ($9) RETURNING *),
       ${ENTERED} SELECT * FROM changed`,
      entry,
      [OPEN_STATES, urgentReason],
    );
  }

  /** Saves a ticket that is kept from others with the entry that says what became of it. */
  async save(ticket: Ticket, entry: NewTicketEntry): Promise<void> {
    const { state, closedAt, mergedInto, followUpDueOn, urgentReason } = ticket;
    const { period, version, asBuiltVersion } = ticket;
    await this.changed(
      `WITH changed AS (
         UPDATE tickets SET state = $9, closed_at = $10, merged_into = $11, follow_up_due_on = $12,
           period = $13, version = $14, as_built_version = $15, urgent_reason = $16
         WHERE id = $2 RETURNING *),
       ${ENTERED} SELECT * FROM changed`,
      entry,
      [state, closedAt, mergedInto, followUpDueOn, period, version, asBuiltVersion, urgentReason],
    );
  }

  find(id: string): Promise<Ticket | null> {
    return findById(this.transaction, Ticket, id);
  }

  /** Reads a ticket and keeps others from changing it until the transaction ends. */
  async findLocked(id: string): Promise<Ticket | null> {
    const manager = await this.transaction.manager();
    return manager.findOne(Ticket, { where: { id }, lock: { mode: 'pessimistic_write' } });
  }

  /** Lowest number first, with the trunks on which each has something that does not work (the table of `reports`). */
  async listOpenOfSite(siteId: string): Promise<OpenTicket[]> {
    const manager = await this.transaction.manager();
    return manager.query<OpenTicket[]>(
      `SELECT id, as_built_version AS "asBuiltVersion", array(
         SELECT DISTINCT trunk FROM observations
         WHERE ticket_id = tickets.id AND outcome <> 'works' AND disconnected_below IS NULL
           AND withdrawal_id IS NULL ORDER BY trunk) AS trunks
       FROM tickets WHERE site_id = $1 AND state = ANY ($2) ORDER BY number`,
      [siteId, OPEN_STATES],
    );
  }

  /** With the likeliest place and what is due next as kept last (tables of `locating` and `contracts`), all in one query. */
  async list(filter: TicketFilter, count: number): Promise<ListedTicket[]> {
    const manager = await this.transaction.manager();
    const query = manager.createQueryBuilder(Ticket, 'ticket');
    const { siteId, number: asked, states, sort, after } = filter;
    query.leftJoin('ticket_clocks', 'clock', 'clock.id = ticket.id');
    if (siteId !== undefined) query.andWhere('ticket.siteId = :siteId', { siteId });
    if (asked !== undefined) query.andWhere('ticket.number = :asked', { asked });
    if (states !== undefined) query.andWhere('ticket.state IN (:...states)', { states });
    if (sort === 'newest') {
      if (after !== undefined) query.andWhere('ticket.number < :number', { number: after[0] });
      query.orderBy('ticket.number', 'DESC');
    } else {
      if (after !== undefined) {
        const [due, number] = after;
        query.andWhere(`(${DUE}, ticket.number) > (:due::timestamptz, :number)`, { due, number });
      }
      query.orderBy('"dueKey"').addOrderBy('ticket.number');
    }
    const { entities, raw } = await query
      .addSelect(
        `(SELECT places -> 0 FROM ticket_locations AS kept WHERE kept.id = ticket.id)`,
        'likeliest',
      )
      .addSelect(NEXT_PROMISE, 'nextPromise')
      .addSelect(DUE, 'dueKey')
      .limit(count)
      .getRawAndEntities<
        Pick<ListedTicket, 'likeliest' | 'nextPromise'> & { dueKey: Date | number }
      >();
    return entities.map((ticket, row) => {
      const { likeliest = null, nextPromise = null, dueKey } = raw[row] ?? {};
      const due = dueKey instanceof Date ? dueKey.toISOString() : 'infinity';
      return { ticket, likeliest, nextPromise, dueKey: due };
    });
  }

  async listOfIds(ids: readonly string[]): Promise<Ticket[]> {
    const manager = await this.transaction.manager();
    return manager.findBy(Ticket, { id: Any([...ids]) });
  }

  /** Closed in a period, oldest first; at most `count`, after the given ticket. */
  async listClosed(
    filter: ClosedFilter,
    after: Ticket | undefined,
    count: number,
  ): Promise<Ticket[]> {
    const manager = await this.transaction.manager();
    const { siteId, from, until } = filter;
    const query = manager.createQueryBuilder(Ticket, 'ticket').where(`ticket.state = 'closed'`);
    if (siteId !== undefined) query.andWhere('ticket.siteId = :siteId', { siteId });
    if (from !== undefined) query.andWhere('ticket.closedAt >= :from', { from });
    if (until !== undefined) query.andWhere('ticket.closedAt < :until', { until });
    if (after !== undefined) {
      const { closedAt, id } = after;
      query.andWhere('(ticket.closedAt, ticket.id) > (:closedAt, :id)', { closedAt, id });
    }
    return query.orderBy('ticket.closedAt').addOrderBy('ticket.id').limit(count).getMany();
  }

  /** A change of one ticket with an entry of its log; the ticket as it is then. */
  private async changed(
    text: string,
    entry: NewTicketEntry,
    values: readonly unknown[],
  ): Promise<Ticket | null> {
    const manager = await this.transaction.manager();
    const all = [...valuesOf(entry), ...values];
    const [row] = await manager.query<Record<string, unknown>[]>(text, all);
    return row === undefined ? null : readRow(manager, Ticket, row);
  }
}

/** What is not due comes last. */
const DUE = `coalesce(clock.due_at, 'infinity')`;

const NEXT_PROMISE = `
  CASE WHEN clock.next_promise IS NOT NULL THEN json_build_object('promise', clock.next_promise,
    'state', clock.next_state, 'dueAt', clock.due_at) END`;

const ENTER = `
  INSERT INTO ticket_entries (id, ticket_id, kind, said_by, said_by_kind, happened_at, recorded_at, details)
  SELECT $1, $2, $3, $4, $5, $6, $7, $8`;

/** The entry of the ticket that `changed` is. */
const ENTERED = `entered AS (${ENTER} FROM changed)`;

/** The first eight parameters. */
function valuesOf(entry: NewTicketEntry): unknown[] {
  const { id, ticketId, kind, saidBy, saidByKind, happenedAt, recordedAt, details } = entry;
  return [id, ticketId, kind, saidBy, saidByKind, happenedAt, recordedAt, details];
}
