import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/** What technicians' vans carry; a row each of whom somebody said something. */
export class Vans1764000000151 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE TABLE van_stocks (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        parts jsonb NOT NULL,
        version integer NOT NULL,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id, id) REFERENCES people (firm_id, id)
      )`);
    await keepFirmsApart(runner, ['van_stocks']);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE van_stocks');
  }
}
