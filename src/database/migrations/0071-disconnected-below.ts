import type { MigrationInterface, QueryRunner } from 'typeorm';

/** Null, as a process of the version before leaves it: the trunk was whole. */
export class DisconnectedBelow1764000000071 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query('ALTER TABLE observations ADD COLUMN disconnected_below text');
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('ALTER TABLE observations DROP COLUMN disconnected_below');
  }
}
