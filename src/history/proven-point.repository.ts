import { Injectable } from '@nestjs/common';
import { Any } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { insertRows } from '../database/json-rows.js';
import type { FunctionName } from '../plan/functions.js';
import { ProvenPoint } from './proven-point.entity.js';

export interface StationOfTrunk {
  trunk: string;
  node: string;
}

/** A function that a walk test heard at a station. */
export interface HeardPoint extends StationOfTrunk {
  function: FunctionName;
  testedAt: Date;
}

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

  /** Oldest test first, points as they were sent; of at most `count` tests, after the given sort key. */
  async listOfVisit(
    visitId: string,
    after: string[] | undefined,
    count: number,
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

  /** One point of a walk test of a visit; all its points are kept from others until the transaction ends. */
  async findTestLocked(visitId: string, walkTestId: string): Promise<ProvenPoint | null> {
    const manager = await this.transaction.manager();
    const lock = { mode: 'pessimistic_write' } as const;
    const points = await manager.find(ProvenPoint, {
      where: { visitId, walkTestId },
      order: { id: 'ASC' },
      lock,
    });
    return points[0] ?? null;
  }

  async withdrawTest(
    visitId: string,
    walkTestId: string,
    visitWithdrawalId: string,
  ): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.update(ProvenPoint, { visitId, walkTestId }, { visitWithdrawalId });
  }

  /** When each function at some of a site's stations was last heard on a visit. */
  async lastHeardOn(visitId: string, stations: readonly StationOfTrunk[]): Promise<HeardPoint[]> {
    const manager = await this.transaction.manager();
    return manager.query<HeardPoint[]>(
      `SELECT trunk, node, function, max(tested_at) AS "testedAt" FROM proven_points
       WHERE visit_id = $1 AND visit_withdrawal_id IS NULL AND (trunk, node) IN (SELECT * FROM unnest($2::text[], $3::text[]))
       GROUP BY trunk, node, function`,
      [visitId, stations.map(({ trunk }) => trunk), stations.map(({ node }) => node)],
    );
  }
}
