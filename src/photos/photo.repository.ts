import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { PhotoFormat } from './photo-format.js';
import { Photo } from './photo.entity.js';

/** What a photo is about. */
export type PhotoOf = { ticketId: string } | { visitId: string };

/** A ticket and all that were merged into it. */
const TOGETHER = `photo.ticketId IN (
  WITH RECURSIVE together AS (
    SELECT :ticketId::uuid AS id
    UNION SELECT tickets.id FROM tickets JOIN together ON tickets.merged_into = together.id)
  SELECT id FROM together)`;

@Injectable()
export class PhotoRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /** Lets one at a time add to a ticket or visit. */
  async lock(id: string): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.query(`SELECT pg_advisory_xact_lock(hashtextextended('photos ' || $1, 0))`, [id]);
  }

  async count(of: PhotoOf): Promise<number> {
    const manager = await this.transaction.manager();
    return manager.count(Photo, { where: of });
  }

  async insert(photo: Omit<Photo, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(Photo, { ...photo });
  }

  async find(id: string): Promise<Photo | null> {
    const manager = await this.transaction.manager();
    return manager.findOneBy(Photo, { id });
  }

  async imageOf(id: string): Promise<{ format: PhotoFormat; image: Buffer | null } | null> {
    const manager = await this.transaction.manager();
    return manager.findOne(Photo, { select: { format: true, image: true }, where: { id } });
  }

  /** By when they were taken, then id; at most `count`, after the given sort key. */
  async list(of: PhotoOf, after: string[] | undefined, count: number): Promise<Photo[]> {
    const manager = await this.transaction.manager();
    const about = 'ticketId' in of ? TOGETHER : 'photo.visitId = :visitId';
    const query = manager.createQueryBuilder(Photo, 'photo').where(about, of);
    if (after !== undefined)
      query.andWhere('(photo.takenAt, photo.id) > (:at, :id)', { at: after[0], id: after[1] });
    return query.orderBy('photo.takenAt').addOrderBy('photo.id').limit(count).getMany();
  }

  /** Whether it was still there to be withdrawn. */
  async withdraw(id: string, by: string, at: Date, because: string): Promise<boolean> {
    const manager = await this.transaction.manager();
    const rows = await manager.query<unknown[][]>(
      `UPDATE photos SET image = NULL, withdrawn_by = $2, withdrawn_at = $3, withdrawn_because = $4
       WHERE id = $1 AND withdrawn_at IS NULL RETURNING id`,
      [id, by, at, because],
    );
    return (rows[0]?.length ?? 0) > 0;
  }

  /** Lets the pictures go that were sent before; how many went. */
  async forgetBefore(before: Date, atOnce: number): Promise<number> {
    const manager = await this.transaction.manager();
    const rows = await manager.query<unknown[][]>(
      `UPDATE photos SET image = NULL WHERE id IN (
         SELECT id FROM photos WHERE image IS NOT NULL AND recorded_at < $1 LIMIT $2) RETURNING id`,
      [before, atOnce],
    );
    return rows[0]?.length ?? 0;
  }
}
