import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/** Visits have hours, minutes of travel, and a record of why they were moved to another time. */
export class VisitsHaveHours1764000000082 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      ALTER TABLE visits ADD COLUMN from_time text, ADD COLUMN until_time text, ADD COLUMN travel_minutes integer;
      CREATE TABLE visit_changes (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        visit_id uuid NOT NULL,
        changed_at timestamptz NOT NULL,
        reason text NOT NULL,
        was_on date NOT NULL,
        was_from_time text,
        was_until_time text,
        "on" date NOT NULL,
        from_time text,
        until_time text,
        ticket_id uuid,
        visit_version integer NOT NULL,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id, visit_id) REFERENCES visits (firm_id, id),
        FOREIGN KEY (firm_id, ticket_id) REFERENCES tickets (firm_id, id)
      );
      CREATE INDEX ON visit_changes (firm_id, visit_id, id);
      CREATE TRIGGER only_grows BEFORE UPDATE OR DELETE ON visit_changes
        FOR EACH ROW EXECUTE FUNCTION refuse_change()`);
    await keepFirmsApart(runner, ['visit_changes']);
    await runner.query(`
      CREATE POLICY reach ON visit_changes AS RESTRICTIVE
        USING ((SELECT reaches_all()) OR visit_id IN (SELECT id FROM visits))`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      DROP TABLE visit_changes;
      ALTER TABLE visits DROP COLUMN from_time, DROP COLUMN until_time, DROP COLUMN travel_minutes`);
  }
}
