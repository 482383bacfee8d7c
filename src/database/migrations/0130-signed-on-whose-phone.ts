import type { MigrationInterface, QueryRunner } from 'typeorm';

/** A technician hands over the phone, and somebody of the site signs on it: whose phone that was is kept. */
export class SignedOnWhosePhone1764000000130 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query('ALTER TABLE signatures ADD COLUMN taken_by text');
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('ALTER TABLE signatures DROP COLUMN taken_by');
  }
}
