import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/** Numbers read off a meter about a ticket. A row is never changed, save for the ticket: merging moves it. */
export class TicketReadings1764000000033 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE TABLE ticket_readings (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        ticket_id uuid NOT NULL,
        reading jsonb NOT NULL,
        taken_by text NOT NULL,
        taken_by_kind text NOT NULL,
        taken_at timestamptz NOT NULL,
        recorded_at timestamptz NOT NULL,
        period integer NOT NULL,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id, id) REFERENCES ticket_entries (firm_id, id),
        FOREIGN KEY (firm_id, ticket_id) REFERENCES tickets (firm_id, id)
      );
      CREATE INDEX ON ticket_readings (firm_id, ticket_id);
      CREATE TRIGGER only_grows BEFORE DELETE ON ticket_readings
        FOR EACH ROW EXECUTE FUNCTION refuse_change();
      CREATE TRIGGER only_moves BEFORE UPDATE ON ticket_readings
        FOR EACH ROW WHEN (to_jsonb(OLD) - 'ticket_id' IS DISTINCT FROM to_jsonb(NEW) - 'ticket_id')
        EXECUTE FUNCTION refuse_change()`);
    await keepFirmsApart(runner, ['ticket_readings']);
    await runner.query(`
      CREATE POLICY reach ON ticket_readings AS RESTRICTIVE
        USING ((SELECT reaches_all()) OR ticket_id IN (SELECT id FROM tickets))`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE ticket_readings');
  }
}
