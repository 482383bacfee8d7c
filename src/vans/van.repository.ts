import { Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { StaleVersionError } from '../shared/domain-error.js';
import type { VanPart } from './van-parts.js';
import { VanStock } from './van-stock.entity.js';

@Injectable()
export class VanRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async listOf(personIds: readonly string[]): Promise<VanStock[]> {
    return (await this.transaction.manager()).findBy(VanStock, { id: In([...personIds]) });
  }

  /** Puts parts in place of a version, or of nothing where that is 0; of two at once, one is stale. */
  async put(
    { id, version }: { id: string; version: number },
    parts: readonly VanPart[],
    at: Date,
  ): Promise<void> {
    const manager = await this.transaction.manager();
    const rows = await manager.query<object[]>(
      `INSERT INTO van_stocks (id, parts, version, counted_at) SELECT $1::uuid, $2::jsonb, 1, $4::timestamptz
       WHERE $3::integer = 0 OR EXISTS (SELECT FROM van_stocks WHERE id = $1::uuid)
       ON CONFLICT (firm_id, id) DO UPDATE SET parts = excluded.parts, version = van_stocks.version + 1,
         counted_at = excluded.counted_at
         WHERE van_stocks.version = $3
       RETURNING id`,
      [id, JSON.stringify(parts), version, at],
    );
    if (rows.length !== 1) throw new StaleVersionError(version);
  }

  /** What the van carries, held from others until the transaction ends; null where nobody said, or only after `at`. */
  async lockCounted(id: string, at: Date): Promise<VanPart[] | null> {
    const manager = await this.transaction.manager();
    const [row] = await manager.query<{ parts: VanPart[] }[]>(
      'SELECT parts FROM van_stocks WHERE id = $1 AND counted_at <= $2 FOR UPDATE',
      [id, at],
    );
    return row?.parts ?? null;
  }

  /** What is in a van that was locked, once something was taken out or put back. */
  async change(id: string, parts: readonly VanPart[]): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.query(
      'UPDATE van_stocks SET parts = $2::jsonb, version = version + 1 WHERE id = $1',
      [id, JSON.stringify(parts)],
    );
  }
}
