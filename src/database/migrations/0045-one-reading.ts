import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/** Tables that a copy reads or a new foreign key looks at, of whatever firm. */
const LOOKED = ['ticket_readings', 'visit_readings', 'ticket_entries', 'tickets', 'visits'];

/**
 * What was read off a meter is one table, on a ticket or on a visit. The two names that it had are views of it for a while,
 * through which a process that was started before this goes on reading and writing.
 */
export class OneReading1764000000045 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await force(runner, false);
    await runner.query(CREATE);
    await runner.query(MOVE);
    await runner.query(GUARD);
    await keepFirmsApart(runner, ['readings']);
    await runner.query(REACH);
    await runner.query(VIEWS);
    await force(runner, true);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP VIEW ticket_readings; DROP VIEW visit_readings');
    await runner.query('ALTER TABLE readings NO FORCE ROW LEVEL SECURITY');
    await force(runner, false);
    await runner.query(MOVE_BACK);
    await keepFirmsApart(runner, ['ticket_readings', 'visit_readings']);
    await runner.query(REACH_BACK);
    await runner.query('DROP TABLE readings; DROP FUNCTION fill_reading()');
    await force(runner, true);
  }
}

async function force(runner: QueryRunner, isForced: boolean): Promise<void> {
  const word = isForced ? 'FORCE' : 'NO FORCE';
  for (const table of LOOKED)
    await runner.query(`
      DO $$ BEGIN IF EXISTS (SELECT FROM pg_class WHERE oid = to_regclass('${table}') AND relkind = 'r')
        THEN ALTER TABLE ${table} ${word} ROW LEVEL SECURITY; END IF; END $$`);
}

const CREATE = `
  CREATE TABLE readings (
    firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
    id uuid NOT NULL,
    ticket_id uuid,
    visit_id uuid,
    entry_id uuid,
    kind text NOT NULL,
    trunk text,
    node text,
    place text,
    core text,
    entered text,
    value double precision,
    unit text,
    uncertainty double precision,
    reading jsonb,
    taken_by text NOT NULL,
    taken_by_kind text NOT NULL DEFAULT 'technician',
    taken_at timestamptz NOT NULL,
    recorded_at timestamptz NOT NULL,
    period integer,
    note text,
    withdrawal_id uuid,
    PRIMARY KEY (firm_id, id),
    CHECK (num_nonnulls(ticket_id, visit_id) = 1)
  );
  CREATE FUNCTION fill_reading() RETURNS trigger LANGUAGE plpgsql AS $$
    BEGIN
      IF NEW.kind IS NOT NULL OR NEW.reading IS NULL THEN RETURN NEW; END IF;
      NEW.entry_id := NEW.id;
      NEW.kind := NEW.reading ->> 'kind';
      NEW.trunk := NEW.reading ->> 'trunk';
      NEW.node := coalesce(NEW.reading ->> 'node', NEW.reading ->> 'to');
      NEW.core := NEW.reading ->> 'core';
      NEW.value := coalesce(NEW.reading ->> 'volts', NEW.reading ->> 'ohms')::double precision;
      NEW.unit := CASE NEW.kind WHEN 'supply-volts' THEN 'V' WHEN 'loop-ohms' THEN 'ohm' END;
      NEW.uncertainty :=
        coalesce(NEW.reading ->> 'uncertaintyVolts', NEW.reading ->> 'uncertaintyOhms')::double precision;
      RETURN NEW;
    END $$;
  CREATE TRIGGER fills BEFORE INSERT ON readings FOR EACH ROW EXECUTE FUNCTION fill_reading()`;

/** A client may have given one id to a reading on a ticket and to one on a visit: the second gets another. */
const MOVE = `
  INSERT INTO readings (firm_id, id, ticket_id, reading, taken_by, taken_by_kind, taken_at, recorded_at, period, note,
      withdrawal_id)
    SELECT r.firm_id, r.id, r.ticket_id, r.reading, r.taken_by, r.taken_by_kind, r.taken_at, r.recorded_at, r.period,
      e.details ->> 'note', r.withdrawal_id
    FROM ticket_readings r JOIN ticket_entries e ON e.firm_id = r.firm_id AND e.id = r.id;
  INSERT INTO readings (firm_id, id, visit_id, kind, trunk, node, place, entered, value, unit, uncertainty, taken_at,
      taken_by, recorded_at, note)
    SELECT v.firm_id, CASE WHEN r.id IS NULL THEN v.id ELSE gen_random_uuid() END, v.visit_id, v.kind, v.trunk, v.node,
      v.place, v.entered, v.value, v.unit, v.uncertainty, v.taken_at, v.taken_by, v.recorded_at, v.note
    FROM visit_readings v LEFT JOIN readings r ON r.firm_id = v.firm_id AND r.id = v.id;
  DROP TABLE ticket_readings;
  DROP TABLE visit_readings`;

const GUARD = `
  ALTER TABLE readings
    ADD FOREIGN KEY (firm_id, ticket_id) REFERENCES tickets (firm_id, id),
    ADD FOREIGN KEY (firm_id, visit_id) REFERENCES visits (firm_id, id),
    ADD FOREIGN KEY (firm_id, entry_id) REFERENCES ticket_entries (firm_id, id),
    ADD FOREIGN KEY (firm_id, withdrawal_id) REFERENCES ticket_entries (firm_id, id);
  CREATE INDEX ON readings (firm_id, ticket_id);
  CREATE INDEX ON readings (firm_id, visit_id, taken_at, id);
  ${grows('readings')}`;

const REACH = `
  CREATE POLICY reach ON readings AS RESTRICTIVE
    USING ((SELECT reaches_all()) OR ticket_id IN (SELECT id FROM tickets)
      OR visit_id IN (SELECT id FROM visits))`;

const VIEWS = `
  CREATE VIEW ticket_readings WITH (security_invoker = true) AS
    SELECT firm_id, id, ticket_id, reading, taken_by, taken_by_kind, taken_at, recorded_at, period, withdrawal_id
    FROM readings WHERE ticket_id IS NOT NULL;
  CREATE VIEW visit_readings WITH (security_invoker = true) AS
    SELECT firm_id, id, visit_id, kind, trunk, node, place, entered, value, unit, uncertainty, taken_at, taken_by,
      recorded_at, note
    FROM readings WHERE visit_id IS NOT NULL;
  DO $$ DECLARE app name; BEGIN
    FOR app IN SELECT DISTINCT grantee FROM information_schema.role_table_grants
      WHERE table_name = 'tickets' AND grantee <> current_user
    LOOP EXECUTE format('GRANT SELECT, INSERT, UPDATE, DELETE ON readings, ticket_readings, visit_readings TO %I', app);
    END LOOP; END $$`;

const MOVE_BACK = `
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
    withdrawal_id uuid,
    PRIMARY KEY (firm_id, id)
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
    PRIMARY KEY (firm_id, id)
  );
  INSERT INTO ticket_readings
    SELECT firm_id, id, ticket_id, reading, taken_by, taken_by_kind, taken_at, recorded_at, period, withdrawal_id
    FROM readings WHERE ticket_id IS NOT NULL;
  INSERT INTO visit_readings
    SELECT firm_id, id, visit_id, kind, trunk, node, place, entered, value, unit, uncertainty, taken_at, taken_by,
      recorded_at, note
    FROM readings WHERE visit_id IS NOT NULL;
  ALTER TABLE ticket_readings
    ADD FOREIGN KEY (firm_id, id) REFERENCES ticket_entries (firm_id, id),
    ADD FOREIGN KEY (firm_id, withdrawal_id) REFERENCES ticket_entries (firm_id, id),
    ADD FOREIGN KEY (firm_id, ticket_id) REFERENCES tickets (firm_id, id);
  ALTER TABLE visit_readings ADD FOREIGN KEY (firm_id, visit_id) REFERENCES visits (firm_id, id);
  CREATE INDEX ON ticket_readings (firm_id, ticket_id);
  CREATE INDEX ON visit_readings (firm_id, visit_id, taken_at, id);
  ${grows('ticket_readings')};
  CREATE TRIGGER only_grows BEFORE UPDATE OR DELETE ON visit_readings
    FOR EACH ROW EXECUTE FUNCTION refuse_change()`;

const REACH_BACK = `
  CREATE POLICY reach ON ticket_readings AS RESTRICTIVE
    USING ((SELECT reaches_all()) OR ticket_id IN (SELECT id FROM tickets));
  CREATE POLICY reach ON visit_readings AS RESTRICTIVE
    USING ((SELECT reaches_all()) OR visit_id IN (SELECT id FROM visits))`;

/** A row only moves between tickets, and is withdrawn once. */
function grows(table: string): string {
  return `
    CREATE TRIGGER only_grows BEFORE DELETE ON ${table}
      FOR EACH ROW EXECUTE FUNCTION refuse_change();
    CREATE TRIGGER only_moves BEFORE UPDATE ON ${table}
      FOR EACH ROW WHEN (
        to_jsonb(OLD) - '{ticket_id,withdrawal_id}'::text[]
          IS DISTINCT FROM to_jsonb(NEW) - '{ticket_id,withdrawal_id}'::text[]
        OR OLD.withdrawal_id IS NOT NULL AND NEW.withdrawal_id IS DISTINCT FROM OLD.withdrawal_id)
      EXECUTE FUNCTION refuse_change()`;
}
