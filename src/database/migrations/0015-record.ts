import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/** Who did what, which nobody changes afterwards; and taking a person's name out of what happened. */
export class Record1764000000015 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE TABLE record_entries (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        happened_at timestamptz NOT NULL,
        actor_kind text NOT NULL,
        actor_id uuid,
        role text,
        action text NOT NULL,
        target jsonb NOT NULL,
        outcome text NOT NULL,
        address text NOT NULL,
        request_id text NOT NULL,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id) REFERENCES firms (firm_id)
      );
      CREATE INDEX ON record_entries (firm_id, happened_at, id)`);
    await keepFirmsApart(runner, ['record_entries']);
    await runner.query(`
      CREATE FUNCTION refuse_record_change() RETURNS trigger LANGUAGE plpgsql AS $$
        BEGIN RAISE EXCEPTION 'the record only grows: its rows are not changed or deleted'; END $$;
      CREATE TRIGGER only_grows BEFORE UPDATE OR DELETE ON record_entries
        FOR EACH ROW EXECUTE FUNCTION refuse_record_change();
      CREATE TRIGGER never_emptied BEFORE TRUNCATE ON record_entries
        FOR EACH STATEMENT EXECUTE FUNCTION refuse_record_change()`);
    await runner.query(LET_NAMES_GO);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE OR REPLACE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
        BEGIN RAISE EXCEPTION '% only grows: its rows are not changed or deleted', TG_TABLE_NAME; END $$;
      DROP FUNCTION is_anonymised(jsonb, jsonb);
      DROP TABLE record_entries;
      DROP FUNCTION refuse_record_change()`);
  }
}

/** The one change that what only grows lets through: a name gives way to "Former person 1a2b3c4d". */
const LET_NAMES_GO = `
  CREATE FUNCTION is_anonymised(before jsonb, after jsonb) RETURNS boolean LANGUAGE sql IMMUTABLE AS $$
    SELECT before <> after AND before - names = after - names AND NOT EXISTS (
      SELECT FROM unnest(names) AS name
      WHERE after ->> name IS DISTINCT FROM before ->> name
        AND (after ->> name) !~ '^Former person [0-9a-f]{8}$')
    FROM (VALUES (ARRAY['said_by', 'moved_by', 'taken_by', 'name'])) AS columns_of (names) $$;

  CREATE OR REPLACE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
    BEGIN
      IF TG_OP = 'UPDATE' AND is_anonymised(to_jsonb(OLD), to_jsonb(NEW)) THEN RETURN NEW; END IF;
      RAISE EXCEPTION '% only grows: its rows are not changed or deleted', TG_TABLE_NAME;
    END $$`;
