import type { MigrationInterface, QueryRunner } from 'typeorm';

/** A firm says by which telephone it is reached; its name may be changed. */
export class HowToReachFirms1764000000136 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      ALTER TABLE firms ADD COLUMN phone text, ADD COLUMN version integer NOT NULL DEFAULT 1`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('ALTER TABLE firms DROP COLUMN phone, DROP COLUMN version');
  }
}
