import type { MigrationInterface, QueryRunner } from 'typeorm';

const INDEXES = {
  tickets_firm_id_merged_into_idx: 'firm_id, merged_into',
  tickets_firm_id_state_number_idx: 'firm_id, state, number',
};

/**
 * Which tickets were merged into one, and the open ones among very many closed (found by `npm run bench -- plans`). Built while
 * others write, so outside of a transaction; one that was left half is built anew.
 */
export class IndexesForLists1764000000063 implements MigrationInterface {
  readonly transaction = false;

  async up(runner: QueryRunner): Promise<void> {
    for (const [name, columns] of Object.entries(INDEXES)) {
      await runner.query(`DROP INDEX CONCURRENTLY IF EXISTS ${name}`);
      await runner.query(`CREATE INDEX CONCURRENTLY ${name} ON tickets (${columns})`);
    }
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const name of Object.keys(INDEXES)) await runner.query(`DROP INDEX IF EXISTS ${name}`);
  }
}
