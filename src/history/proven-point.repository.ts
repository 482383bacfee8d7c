import { Injectable } from '@nestjs/common';
import { Any } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { insertRows } from '../database/json-rows.js';
import { ProvenPoint } from './proven-point.entity.js';

@Injectable()
export class ProvenPointRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(points: Omit<ProvenPoint, 'firmId'>[]): Promise<void> {
    const [first, ...others] = points;
    if (first === undefined) return;
    const manager = await this.transaction.manager();
    const { text, values } = insertRows(manager, 'proven_points', [first, ...others]);
    this.transaction.writeLater(text, values);
  }

  /** Oldest test first, points as they were sent; of at most `count` tests (null: all), after the given sort key. */
  async listOfVisit(
    visitId: string,
    after: string[] | undefined,
    count: number | null,
  ): Promise<ProvenPoint[]> {
    const manager = await this.transaction.manager();
    const tests = await manager.query<{ id: string }[]>(
      `SELECT walk_test_id AS id FROM proven_points
       WHERE visit_id = $1 AND ($2::timestamptz IS NULL OR (tested_at, walk_test_id) > ($2, $3::uuid))
       GROUP BY tested_at, walk_test_id ORDER BY tested_at, walk_test_id LIMIT $4`,
      [visitId, after?.[0] ?? null, after?.[1] ?? null, count],
    );
    return manager.find(ProvenPoint, {
      where: { visitId, walkTestId: Any(tests.map(({ id }) => id)) },
      order: { testedAt: 'ASC', walkTestId: 'ASC', id: 'ASC' },
    });
  }
}
