import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

export class Visits1764000000004 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createPlanned(runner);
    await createHappened(runner);
    await keepFirmsApart(runner, ['visits', 'visit_tickets', 'visit_moves', 'visit_readings']);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      DROP TABLE visit_readings;
      DROP TABLE visit_moves;
      DROP TABLE visit_tickets;
      DROP TABLE visits`);
  }
}

async function createPlanned(runner: QueryRunner): Promise<void> {
  await runner.query(`
    CREATE TABLE visits (
      firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
      id uuid NOT NULL,
      site_id uuid NOT NULL,
      kind text NOT NULL,
      "on" date NOT NULL,
      technician_id uuid,
      purpose text NOT NULL,
      upkeep boolean NOT NULL,
      state text NOT NULL,
      work_done text,
      started_at timestamptz,
      finished_at timestamptz,
      version integer NOT NULL,
      created_at timestamptz NOT NULL,
      PRIMARY KEY (firm_id, id),
      FOREIGN KEY (firm_id, site_id) REFERENCES sites (firm_id, id),
      FOREIGN KEY (firm_id, technician_id) REFERENCES people (firm_id, id)
    );
    CREATE INDEX ON visits (firm_id, "on", id);
    CREATE INDEX ON visits (firm_id, site_id, "on");
    CREATE INDEX ON visits (firm_id, technician_id, "on");

    CREATE TABLE visit_tickets (
      firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
      visit_id uuid NOT NULL,
      ticket_id uuid NOT NULL,
      PRIMARY KEY (firm_id, visit_id, ticket_id),
      FOREIGN KEY (firm_id, visit_id) REFERENCES visits (firm_id, id),
      FOREIGN KEY (firm_id, ticket_id) REFERENCES tickets (firm_id, id)
    );
    CREATE INDEX ON visit_tickets (firm_id, ticket_id)`);
}

/** Who moved the visit, and what the meters said: rows that are never changed. */
async function createHappened(runner: QueryRunner): Promise<void> {
  await runner.query(`
    CREATE TABLE visit_moves (
      firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
      id uuid NOT NULL,
      visit_id uuid NOT NULL,
      from_state text NOT NULL,
      to_state text NOT NULL,
      moved_by text NOT NULL,
      moved_at timestamptz NOT NULL,
      recorded_at timestamptz NOT NULL,
      reason text,
      work_done text,
      visit_version integer NOT NULL,
      PRIMARY KEY (firm_id, id),
      UNIQUE (firm_id, visit_id, visit_version),
      FOREIGN KEY (firm_id, visit_id) REFERENCES visits (firm_id, id)
    );

    CREATE TABLE visit_readings (
      firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
      id uuid NOT NULL,
      visit_id uuid NOT NULL,
      kind text NOT NULL,
      trunk text,
      node text,
      place text,
      entered text NOT NULL,
      value double precision NOT NULL,
      unit text NOT NULL,
      uncertainty double precision,
      taken_at timestamptz NOT NULL,
      taken_by text NOT NULL,
      recorded_at timestamptz NOT NULL,
      note text,
      PRIMARY KEY (firm_id, id),
      FOREIGN KEY (firm_id, visit_id) REFERENCES visits (firm_id, id)
    );
    CREATE INDEX ON visit_readings (firm_id, visit_id, taken_at, id);

    CREATE TRIGGER only_grows BEFORE UPDATE OR DELETE ON visit_moves
      FOR EACH ROW EXECUTE FUNCTION refuse_change();
    CREATE TRIGGER only_grows BEFORE UPDATE OR DELETE ON visit_readings
      FOR EACH ROW EXECUTE FUNCTION refuse_change()`);
}
