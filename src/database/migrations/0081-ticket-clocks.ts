import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/** How long there is for each ticket, as it was reckoned last: for the list, and for warnings that come once. */
export class TicketClocks1764000000081 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE TABLE ticket_clocks (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        read_at timestamptz NOT NULL,
        contract_id uuid,
        trouble_class text NOT NULL,
        next_promise text,
        next_state text,
        due_at timestamptz,
        look_at timestamptz,
        kept jsonb NOT NULL,
        told jsonb NOT NULL,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id, id) REFERENCES tickets (firm_id, id),
        FOREIGN KEY (firm_id, contract_id) REFERENCES contracts (firm_id, id)
      );
      CREATE INDEX ON ticket_clocks (firm_id, contract_id)`);
    await keepFirmsApart(runner, ['ticket_clocks']);
    await runner.query(`
      CREATE POLICY reach ON ticket_clocks AS RESTRICTIVE
        USING ((SELECT reaches_all()) OR id IN (SELECT id FROM tickets))`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE ticket_clocks');
  }
}
