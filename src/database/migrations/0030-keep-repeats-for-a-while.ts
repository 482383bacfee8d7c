import type { MigrationInterface, QueryRunner } from 'typeorm';

/** Answers that are kept for repeats are found by their age, and forgotten. The app says when it is. */
export class KeepRepeatsForAWhile1764000000030 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      ALTER TABLE received_requests ALTER COLUMN received_at DROP DEFAULT;
      CREATE INDEX ON received_requests (firm_id, received_at)`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      DROP INDEX received_requests_firm_id_received_at_idx;
      ALTER TABLE received_requests ALTER COLUMN received_at SET DEFAULT now()`);
  }
}
