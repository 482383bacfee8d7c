import type { MigrationInterface, QueryRunner } from 'typeorm';

const NAME = 'tickets_firm_id_opened_at_idx';

/** Since when a firm keeps a record. Built while others write, so outside of a transaction. */
export class FirstOpened1764000000141 implements MigrationInterface {
  readonly transaction = false;

  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`DROP INDEX CONCURRENTLY IF EXISTS ${NAME}`);
    await runner.query(`CREATE INDEX CONCURRENTLY ${NAME} ON tickets (firm_id, opened_at)`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`DROP INDEX IF EXISTS ${NAME}`);
  }
}
