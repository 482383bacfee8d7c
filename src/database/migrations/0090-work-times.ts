import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/** How long work on site takes, as a firm says. */
export class WorkTimes1764000000090 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE TABLE work_times (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        minutes jsonb NOT NULL,
        version integer NOT NULL,
        PRIMARY KEY (firm_id)
      )`);
    await keepFirmsApart(runner, ['work_times']);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE work_times');
  }
}
