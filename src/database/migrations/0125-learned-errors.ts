import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/** How often calls are about nothing and looks miss, as a firm's own record says. */
export class LearnedErrors1764000000125 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE TABLE learned_errors (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        learned jsonb NOT NULL,
        PRIMARY KEY (firm_id)
      )`);
    await keepFirmsApart(runner, ['learned_errors']);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE learned_errors');
  }
}
