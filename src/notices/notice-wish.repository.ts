import { Injectable } from '@nestjs/common';
import { IsNull } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { NoticeWish } from './notice-wish.entity.js';

/** Wishes of a firm that are listed, the newest first. */
const MOST_LISTED = 500;

@Injectable()
export class NoticeWishRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /** Of the firm until the transaction ends: how many are open, of the person and of all. */
  async countOpen(personId: string): Promise<{ own: number; all: number }> {
    const manager = await this.transaction.manager();
    await manager.query(
      `SELECT pg_advisory_xact_lock(hashtextextended('notice_wishes ' || current_setting('app.firm_id'), 0))`,
    );
    const [counted] = await manager.query<{ own: number; all: number }[]>(
      `SELECT count(*) FILTER (WHERE person_id = $1)::int AS own, count(*)::int AS "all"
       FROM notice_wishes WHERE ended_at IS NULL`,
      [personId],
    );
    return counted ?? { own: 0, all: 0 };
  }

  async insert(wish: Omit<NoticeWish, 'firmId'>): Promise<void> {
    await (await this.transaction.manager()).insert(NoticeWish, { ...wish });
  }

  async find(id: string): Promise<NoticeWish | null> {
    return (await this.transaction.manager()).findOneBy(NoticeWish, { id });
  }

  /** In a transaction that finds by the secret's hash. */
  async findShown(secretHash: string): Promise<NoticeWish | null> {
    return (await this.transaction.manager()).findOneBy(NoticeWish, { secretHash });
  }

  /** All, or one person's. */
  async list(personId: string | null): Promise<NoticeWish[]> {
    const manager = await this.transaction.manager();
    return manager.find(NoticeWish, {
      where: personId === null ? {} : { personId },
      order: { createdAt: 'DESC', id: 'DESC' },
      take: MOST_LISTED,
    });
  }

  async end(id: string, endedAt: Date): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.update(NoticeWish, { id, endedAt: IsNull() }, { endedAt });
  }
}
