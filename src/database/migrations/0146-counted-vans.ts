import type { MigrationInterface, QueryRunner } from 'typeorm';

/** When somebody said what a van carries: what was used before is in that count. Runs after 0151, by its timestamp. */
export class CountedVans1764000001460 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(
      'ALTER TABLE van_stocks ADD COLUMN counted_at timestamptz NOT NULL DEFAULT now()',
    );
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('ALTER TABLE van_stocks DROP COLUMN counted_at');
  }
}
