import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { Happening } from '../jobs/job-kinds.js';
import type { PersonRole } from '../people/roles.js';
import type { Language } from '../words/index.js';
import type { NoticeFacts, NoticeKind, NoticeWay, ToldVisit } from './notice-kinds.js';
import { Notice } from './notice.entity.js';

/** Notices of a wish that are listed, the newest first. */
const MOST_LISTED = 100;

type ReportFacts = Extract<NoticeFacts, { kind: 'new-report' }>;
type VisitFacts = Pick<Extract<NoticeFacts, { visit: ToldVisit }>, 'site' | 'visit'>;

/** Somebody to be told. */
export interface Addressee {
  id: string;
  way: NoticeWay;
  language: Language;
  sealedSecret: string;
  /** Of the person who asked. */
  email: string;
  work: PersonRole;
}

@Injectable()
export class NoticeRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /** What is told of it; null: it is not there any more, or was taken back. */
  async findFacts(happening: Happening): Promise<NoticeFacts | null> {
    const manager = await this.transaction.manager();
    if (!('ticketId' in happening)) {
      const [row] = await manager.query<VisitFacts[]>(VISIT, [happening.visitId]);
      return row === undefined ? null : { kind: happening.kind, ...row };
    }
    const [row] = await manager.query<ReportFacts[]>(TICKET, [happening.ticketId]);
    if (row === undefined) return null;
    const { site, ticket, silentRooms, urgentReason } = row;
    const { kind } = happening;
    if (kind === 'new-report') return { kind, site, ticket, silentRooms, urgentReason };
    return { kind, site, ticket, promise: { kind: happening.promise, dueAt: happening.dueAt } };
  }

  /**
   * Everybody who is to hear of it: a client's people of their own sites, technicians of their own visits tomorrow; nobody
   * whose sign-in has ended.
   */
  async listListeners(facts: NoticeFacts): Promise<Addressee[]> {
    const manager = await this.transaction.manager();
    return manager.query<Addressee[]>(
      `SELECT w.id, w.way, w.language, w.sealed_secret AS "sealedSecret", a.email, p.work
       FROM notice_wishes w JOIN people p ON p.id = w.person_id JOIN accounts a ON a.id = w.person_id
         JOIN sites s ON s.id = $2 LEFT JOIN visits v ON v.id = $3
       WHERE w.ended_at IS NULL AND a.ended_at IS NULL AND $1 = ANY (w.kinds)
         AND (w.site_id IS NULL OR w.site_id = s.id)
         AND (p.client_id IS NULL OR p.client_id = s.client_id)
         AND (p.work <> 'technician' OR $1 <> 'visit-tomorrow' OR v.technician_id = p.id)
       ORDER BY w.id`,
      [facts.kind, facts.site.id, 'visit' in facts ? facts.visit.id : null],
    );
  }

  /** Writes down who is told of it. Gives those that were not told before, by the wish. */
  async insert(
    happening: string,
    facts: NoticeFacts,
    wishIds: string[],
    createdAt: Date,
  ): Promise<Map<string, string>> {
    const manager = await this.transaction.manager();
    const rows = await manager.query<{ id: string; wishId: string }[]>(
      `INSERT INTO notices (id, wish_id, happening, facts, created_at, tries)
       SELECT id, wish_id, $3, $4, $5, 0 FROM unnest($1::uuid[], $2::uuid[]) AS of (id, wish_id)
       ON CONFLICT ON CONSTRAINT notices_once DO NOTHING RETURNING id, wish_id AS "wishId"`,
      [wishIds.map(() => uuidv7()), wishIds, happening, JSON.stringify(facts), createdAt],
    );
    return new Map(rows.map(({ id, wishId }) => [wishId, id]));
  }

  async find(id: string): Promise<Notice | null> {
    return (await this.transaction.manager()).findOneBy(Notice, { id });
  }

  async update(id: string, columns: Partial<Pick<Notice, 'sentAt' | 'failure'>>): Promise<void> {
    await (await this.transaction.manager()).update(Notice, { id }, columns);
  }

  async markSent(ids: string[], sentAt: Date): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.query('UPDATE notices SET sent_at = $2 WHERE id = ANY ($1)', [ids, sentAt]);
  }

  async countTry(id: string): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.query('UPDATE notices SET tries = tries + 1 WHERE id = $1', [id]);
  }

  async listOfWish(wishId: string): Promise<Notice[]> {
    const manager = await this.transaction.manager();
    return manager.find(Notice, {
      where: { wishId },
      order: { createdAt: 'DESC', id: 'DESC' },
      take: MOST_LISTED,
    });
  }

  /** Visits of the next day, as each site's calendar has it, once the afternoon before has come there. */
  async listVisitsAhead(
    now: Date,
    hour: number,
    most: number,
  ): Promise<{ id: string; on: string }[]> {
    const manager = await this.transaction.manager();
    return manager.query<{ id: string; on: string }[]>(
      `SELECT v.id, v."on"::text AS "on" FROM visits v JOIN sites s ON s.id = v.site_id
       WHERE v.state = 'planned' AND v."on" BETWEEN $1::timestamptz::date AND $1::timestamptz::date + 2
         AND v."on" = ($1::timestamptz AT TIME ZONE s.zone)::date + 1
         AND extract(hour FROM $1::timestamptz AT TIME ZONE s.zone) >= $2
         AND NOT EXISTS (SELECT FROM notices n WHERE n.happening = 'visit-tomorrow ' || v.id || ' ' || v."on"
           AND n.created_at > $1::timestamptz - interval '2 days')
       ORDER BY v."on", v.id LIMIT $3`,
      [now, hour, most],
    );
  }

  async isAwaited(kind: NoticeKind): Promise<boolean> {
    const manager = await this.transaction.manager();
    const [row] = await manager.query<{ awaited: boolean }[]>(
      'SELECT EXISTS (SELECT FROM notice_wishes WHERE ended_at IS NULL AND $1 = ANY (kinds)) AS awaited',
      [kind],
    );
    return row?.awaited ?? false;
  }

  /** Forgets what happened before then. */
  async deleteBefore(createdAt: Date): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.query('DELETE FROM notices WHERE created_at < $1', [createdAt]);
  }
}

const SITE = `json_build_object('id', s.id, 'name', s.name, 'zone', s.zone) AS site`;

const TICKET = `
  SELECT ${SITE}, json_build_object('id', t.id, 'number', t.number) AS ticket,
    (SELECT count(DISTINCT (trunk, node))::int FROM observations
     WHERE ticket_id = t.id AND withdrawal_id IS NULL AND outcome <> 'works') AS "silentRooms",
    t.urgent_reason AS "urgentReason"
  FROM tickets t JOIN sites s ON s.id = t.site_id WHERE t.id = $1 AND t.state NOT IN ('merged', 'closed')`;

const VISIT = `
  SELECT ${SITE},
    json_build_object('id', v.id, 'on', v."on", 'fromTime', v.from_time, 'untilTime', v.until_time,
      'purpose', v.purpose, 'technician', p.name) AS visit
  FROM visits v JOIN sites s ON s.id = v.site_id LEFT JOIN people p ON p.id = v.technician_id
  WHERE v.id = $1 AND v.state NOT IN ('called-off', 'missed')`;
