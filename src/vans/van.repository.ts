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
  async put(id: string, version: number, parts: readonly VanPart[]): Promise<void> {
    const manager = await this.transaction.manager();
    const rows = await manager.query<object[]>(
      `INSERT INTO van_stocks (id, parts, version) SELECT $1::uuid, $2::jsonb, 1
       WHERE $3::integer = 0 OR EXISTS (SELECT FROM van_stocks WHERE id = $1::uuid)
       ON CONFLICT (firm_id, id) DO UPDATE SET parts = excluded.parts, version = van_stocks.version + 1
         WHERE van_stocks.version = $3
       RETURNING id`,
      [id, JSON.stringify(parts), version],
    );
    if (rows.length !== 1) throw new StaleVersionError(version);
  }
}
