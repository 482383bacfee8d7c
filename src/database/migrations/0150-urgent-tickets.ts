import type { MigrationInterface, QueryRunner } from 'typeorm';

/** Why a ticket cannot wait, as whoever reported it says. */
export class UrgentTickets1764000000150 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query('ALTER TABLE tickets ADD COLUMN urgent_reason text');
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('ALTER TABLE tickets DROP COLUMN urgent_reason');
  }
}
