import { Injectable } from '@nestjs/common';
import { IsNull } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { CalendarFeed } from './calendar-feed.entity.js';
import type { FeedVisit } from './visits-as-calendar.js';

/** Feeds of a firm that are listed, the newest first. */
const MOST_FEEDS = 500;

/** Visits that a calendar shows. */
const MOST_VISITS = 500;

@Injectable()
export class CalendarFeedRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(feed: Omit<CalendarFeed, 'firmId'>): Promise<void> {
    await (await this.transaction.manager()).insert(CalendarFeed, { ...feed });
  }

  async find(id: string): Promise<CalendarFeed | null> {
    return (await this.transaction.manager()).findOneBy(CalendarFeed, { id });
  }

  /** In a transaction that finds by the secret's hash. */
  async findShown(secretHash: string): Promise<CalendarFeed | null> {
    return (await this.transaction.manager()).findOneBy(CalendarFeed, { secretHash });
  }

  /** All, or one person's. */
  async list(technicianId: string | null): Promise<CalendarFeed[]> {
    const manager = await this.transaction.manager();
    return manager.find(CalendarFeed, {
      where: technicianId === null ? {} : { technicianId },
      order: { createdAt: 'DESC', id: 'DESC' },
      take: MOST_FEEDS,
    });
  }

  /** Those of the people who are there, by their ids. */
  async namesOf(personIds: string[]): Promise<Map<string, string>> {
    const manager = await this.transaction.manager();
    const people = await manager.query<{ id: string; name: string }[]>(
      'SELECT id, name FROM people WHERE id = ANY ($1)',
      [personIds],
    );
    return new Map(people.map(({ id, name }) => [id, name]));
  }

  /** Unless it was read lately; of two at once one writes. */
  async keepRead(id: string, at: Date, before: Date): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.query(
      `UPDATE calendar_feeds SET last_read_at = $2
       WHERE id = $1 AND (last_read_at IS NULL OR last_read_at <= $3)`,
      [id, at, before],
    );
  }

  async end(id: string, endedAt: Date): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.update(CalendarFeed, { id, endedAt: IsNull() }, { endedAt });
  }

  /** Visits of a feed between two days, the first of them. */
  async visitsOf(
    { technicianId, siteId }: CalendarFeed,
    { from, until }: { from: string; until: string },
  ): Promise<FeedVisit[]> {
    const manager = await this.transaction.manager();
    return manager.query<FeedVisit[]>(
      `SELECT visits.id, visits."on"::text AS "on", visits.kind, visits.purpose, visits.state, visits.version,
         visits.from_time AS "fromTime", visits.until_time AS "untilTime", sites.zone, sites.name AS "siteName", sites.address
       FROM visits JOIN sites ON sites.id = visits.site_id
       WHERE ($1::uuid IS NULL OR technician_id = $1) AND ($2::uuid IS NULL OR site_id = $2)
         AND "on" >= $3 AND "on" < $4
       ORDER BY "on", visits.id LIMIT ${MOST_VISITS}`,
      [technicianId, siteId, from, until],
    );
  }
}
