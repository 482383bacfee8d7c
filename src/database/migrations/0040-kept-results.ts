import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/** What is worked out by jobs and kept: the rates that a firm's findings teach, and where each ticket's trouble lies. */
export class KeptResults1764000000040 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE TABLE learned_rates (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        class_name text NOT NULL,
        mode text NOT NULL,
        learned_from text NOT NULL,
        years double precision NOT NULL,
        class_rate double precision NOT NULL,
        shares jsonb NOT NULL,
        sites jsonb NOT NULL,
        PRIMARY KEY (firm_id, id),
        UNIQUE (firm_id, class_name, mode)
      );
      CREATE TABLE ticket_locations (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        fingerprint text NOT NULL,
        read_at timestamptz NOT NULL,
        worked_out_at timestamptz NOT NULL,
        places json NOT NULL,
        office_checks json NOT NULL,
        predicted json NOT NULL,
        answer text,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id, id) REFERENCES tickets (firm_id, id)
      )`);
    await keepFirmsApart(runner, ['learned_rates', 'ticket_locations']);
    await runner.query(`
      CREATE POLICY reach ON ticket_locations AS RESTRICTIVE
        USING ((SELECT reaches_all()) OR id IN (SELECT id FROM tickets));
      ALTER TABLE received_requests ADD COLUMN is_finished boolean NOT NULL DEFAULT true`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      ALTER TABLE received_requests DROP COLUMN is_finished;
      DROP TABLE ticket_locations;
      DROP TABLE learned_rates`);
  }
}
