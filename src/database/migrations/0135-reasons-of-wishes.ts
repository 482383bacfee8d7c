import type { MigrationInterface, QueryRunner } from 'typeorm';

/** What is wanted of a job is kept with why it is wanted. */
export class ReasonsOfWishes1764000000135 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query('ALTER TABLE job_wishes ADD COLUMN reason text');
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('ALTER TABLE job_wishes DROP COLUMN reason');
  }
}
