import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/** What an hour, a way and parts cost a firm; one row each. */
export class Prices1764000000083 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE TABLE firm_prices (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        currency text NOT NULL,
        hour_minor double precision NOT NULL,
        travel_hour_minor double precision NOT NULL,
        parts jsonb NOT NULL,
        version integer NOT NULL,
        PRIMARY KEY (firm_id)
      )`);
    await keepFirmsApart(runner, ['firm_prices']);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE firm_prices');
  }
}
