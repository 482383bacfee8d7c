import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

const ONLY_GROWS = `
  -- What happened is never overwritten, whichever role the app runs as.
  CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
    BEGIN RAISE EXCEPTION '% only grows: its rows are not changed or deleted', TG_TABLE_NAME; END $$;
  CREATE TRIGGER only_grows BEFORE UPDATE OR DELETE ON ticket_entries
    FOR EACH ROW EXECUTE FUNCTION refuse_change();
  CREATE TRIGGER only_grows BEFORE DELETE ON observations
    FOR EACH ROW EXECUTE FUNCTION refuse_change();
  CREATE TRIGGER only_moves BEFORE UPDATE ON observations
    FOR EACH ROW WHEN (to_jsonb(OLD) - 'ticket_id' IS DISTINCT FROM to_jsonb(NEW) - 'ticket_id')
    EXECUTE FUNCTION refuse_change()`;

export class Tickets1764000000003 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      ALTER TABLE firms ADD COLUMN last_ticket_number integer NOT NULL DEFAULT 0;

      CREATE TABLE tickets (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        number integer NOT NULL,
        site_id uuid NOT NULL,
        as_built_version integer NOT NULL,
        state text NOT NULL,
        opened_by text NOT NULL,
        opened_at timestamptz NOT NULL,
        closed_at timestamptz,
        merged_into uuid,
        follow_up_due_on date,
        period integer NOT NULL,
        version integer NOT NULL,
        PRIMARY KEY (firm_id, id),
        UNIQUE (firm_id, number),
        FOREIGN KEY (firm_id, site_id) REFERENCES sites (firm_id, id),
        FOREIGN KEY (firm_id, merged_into) REFERENCES tickets (firm_id, id)
      );
      CREATE INDEX ON tickets (firm_id, site_id, state);

      CREATE TABLE ticket_entries (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        ticket_id uuid NOT NULL,
        kind text NOT NULL,
        said_by text NOT NULL,
        said_by_kind text,
        happened_at timestamptz NOT NULL,
        recorded_at timestamptz NOT NULL,
        details jsonb NOT NULL,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id, ticket_id) REFERENCES tickets (firm_id, id)
      );
      CREATE INDEX ON ticket_entries (firm_id, ticket_id, id);

      CREATE TABLE observations (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        entry_id uuid NOT NULL,
        ticket_id uuid NOT NULL,
        trunk text NOT NULL,
        node text NOT NULL,
        function text NOT NULL,
        outcome text NOT NULL,
        said_by text NOT NULL,
        said_by_kind text NOT NULL,
        how text NOT NULL,
        observed_at timestamptz NOT NULL,
        period integer NOT NULL,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id, entry_id) REFERENCES ticket_entries (firm_id, id),
        FOREIGN KEY (firm_id, ticket_id) REFERENCES tickets (firm_id, id)
      );
      CREATE INDEX ON observations (firm_id, ticket_id);`);
    await runner.query(ONLY_GROWS);
    await keepFirmsApart(runner, ['tickets', 'ticket_entries', 'observations']);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      DROP TABLE observations;
      DROP TABLE ticket_entries;
      DROP TABLE tickets;
      DROP FUNCTION refuse_change();
      ALTER TABLE firms DROP COLUMN last_ticket_number`);
  }
}
