import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Client } from 'pg';
import type { DataSource } from 'typeorm';

import { assertSafeRole } from '#app/database/assert-safe-role.js';
import { createDataSource } from '#app/database/data-source.js';
import { migrate } from '#app/database/migrate.js';
import { TargetsOfEarlierEntries1764000000062 } from '#app/database/migrations/0062-targets-of-earlier-entries.js';

import { type ClonedDatabase, cloneDatabase } from './support/clone-database.js';

const FIRM = '01900000-0000-7000-8000-0000000000f1';
const OTHER_FIRM = '01900000-0000-7000-8000-0000000000f2';

describe('the database', () => {
  let database: ClonedDatabase;
  let app: Client;
  let owner: DataSource;

  beforeAll(async () => {
    database = await cloneDatabase();
    app = new Client({ connectionString: database.appUrl });
    await app.connect();
    owner = await createDataSource(database.ownerUrl, 2).initialize();
  });

  afterAll(async () => {
    await app.end();
    await owner.destroy();
    await database.drop();
  });

  /** Runs SQL as the app in a transaction of a firm, or of none. */
  async function asFirm<Row extends object>(firm: string | null, sql: string): Promise<Row[]> {
    await app.query('BEGIN');
    try {
      if (firm !== null) await app.query(`SELECT set_config('app.firm_id', $1, true)`, [firm]);
      const { rows } = await app.query<Row>(sql);
      await app.query('COMMIT');
      return rows;
    } catch (error) {
      await app.query('ROLLBACK');
      throw error;
    }
  }

  it('has the schema that the entities describe', async () => {
    const { upQueries } = await owner.driver.createSchemaBuilder().log();
    expect(upQueries.map(({ query }) => query)).toEqual([]);
  });

  it('would notice a schema that has drifted', async () => {
    await owner.query('ALTER TABLE people ADD COLUMN stray text');
    const { upQueries } = await owner.driver.createSchemaBuilder().log();
    await owner.query('ALTER TABLE people DROP COLUMN stray');
    expect(upQueries.map(({ query }) => query)).toEqual([
      'ALTER TABLE "people" DROP COLUMN "stray"',
    ]);
  });

  it('keeps firms apart on every table, by force', async () => {
    const tables = await owner.query<{ name: string; safe: boolean; led: boolean }[]>(`
      SELECT relname AS name,
        relrowsecurity AND relforcerowsecurity
          AND EXISTS (SELECT FROM pg_policy WHERE polrelid = pg_class.oid) AS safe,
        EXISTS (SELECT FROM pg_attribute
                WHERE attrelid = pg_class.oid AND attname = 'firm_id' AND attnum = 1) AS led
      FROM pg_class WHERE relkind = 'r' AND relnamespace = 'public'::regnamespace
        AND relname <> 'migrations'`);
    expect(tables.length).toBeGreaterThanOrEqual(3);
    expect(tables.filter(({ safe, led }) => !safe || !led)).toEqual([]);
  });

  it('shows and takes nothing without a firm, or with the wrong one', async () => {
    await asFirm(FIRM, `INSERT INTO firms (name, created_at) VALUES ('One', now())`);
    await expect(asFirm(null, 'SELECT * FROM firms')).rejects.toThrow();
    expect(await asFirm(OTHER_FIRM, 'SELECT * FROM firms')).toEqual([]);
    const changed = await asFirm(OTHER_FIRM, `UPDATE firms SET name = 'Mine' RETURNING 1`);
    expect(changed).toEqual([]);
    await expect(
      asFirm(
        OTHER_FIRM,
        `INSERT INTO firms (firm_id, name, created_at) VALUES ('${FIRM}', '', now())`,
      ),
    ).rejects.toThrow(/row-level security/);
    expect(await asFirm(FIRM, 'SELECT name FROM firms')).toEqual([{ name: 'One' }]);
  });

  it('may be migrated by several processes at once, and again', async () => {
    const all = [1, 2, 3].map(() => migrate(database.ownerUrl, database.appUrl));
    await expect(Promise.all(all)).resolves.toHaveLength(3);
  });

  it('goes back to nothing and up again', async () => {
    const spare = await cloneDatabase();
    const dataSource = await createDataSource(spare.ownerUrl, 1).initialize();
    try {
      for (let left = dataSource.migrations.length; left > 0; left--) {
        await dataSource.undoLastMigration();
      }
      const tables = await dataSource.query<{ tablename: string }[]>(
        `SELECT tablename FROM pg_tables WHERE schemaname = 'public'`,
      );
      expect(tables).toEqual([{ tablename: 'migrations' }]);
      await dataSource.runMigrations({ transaction: 'each' });
      const { upQueries } = await dataSource.driver.createSchemaBuilder().log();
      expect(upQueries).toEqual([]);
    } finally {
      await dataSource.destroy();
      await spare.drop();
    }
  });

  it('is refused as a role that may bypass row-level security', async () => {
    await expect(assertSafeRole(process.env['TEST_SUPERUSER_URL']!)).rejects.toThrow(/superuser/);
    await expect(assertSafeRole(database.appUrl)).resolves.toBeUndefined();
  });

  it('finds what the audit had before its targets were kept, part by part, and once', async () => {
    const entries = 12_000;
    await owner.query('ALTER TABLE record_entries DISABLE TRIGGER keep_targets');
    await owner.transaction(async (manager) => {
      await manager.query(`SELECT set_config('app.firm_id', $1, true)`, [FIRM]);
      await manager.query(
        `INSERT INTO firms (firm_id, name, created_at) VALUES ($1, 'x', now()) ON CONFLICT DO NOTHING`,
        [FIRM],
      );
      await manager.query(
        `INSERT INTO record_entries
           (id, happened_at, actor_kind, action, target, outcome, address, request_id)
         SELECT gen_random_uuid(), '2026-03-02'::timestamptz + n / 100 * interval '1 s', 'token', 'PUT /',
           jsonb_build_object('id', n % 7, 'siteId', 'site', 'again', 'site'), 'done', '::1', n
         FROM generate_series(1, $1::int) AS n`,
        [entries],
      );
    });
    await owner.query('ALTER TABLE record_entries ENABLE TRIGGER keep_targets');
    const count = `SELECT count(*)::int AS kept FROM record_targets WHERE target = 'site'`;
    expect(await asFirm(FIRM, count)).toEqual([{ kept: 0 }]);
    for (let time = 0; time < 2; time++) {
      const runner = owner.createQueryRunner();
      await new TargetsOfEarlierEntries1764000000062().up(runner);
      await runner.release();
      expect(await asFirm(FIRM, count)).toEqual([{ kept: entries }]);
    }
  });
});
