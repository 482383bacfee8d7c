import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/**
 * What the audit is asked for by: an id that an entry names is a row, because no index on JSON is used below a row-level
 * policy (its operators are not leakproof). A trigger writes it, so that a process of the version before does too; migration
 * 0062 does so for the entries there are. Entries about reading may be forgotten, by `forget_reads` alone.
 */
export class AuditByTarget1764000000061 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE TABLE record_targets (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        target text NOT NULL,
        happened_at timestamptz NOT NULL,
        entry_id uuid NOT NULL,
        PRIMARY KEY (firm_id, target, happened_at, entry_id)
      );
      CREATE INDEX ON record_targets (firm_id, entry_id)`);
    await keepFirmsApart(runner, ['record_targets']);
    await runner.query(KEEP_TARGETS);
    await runner.query(LET_READS_GO);
    await runner.query(FORGET_READS);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      DROP FUNCTION forget_reads(timestamptz, integer);
      DROP TRIGGER keep_targets ON record_entries;
      DROP TABLE record_targets;
      DROP FUNCTION keep_record_targets();
      CREATE OR REPLACE FUNCTION refuse_record_change() RETURNS trigger LANGUAGE plpgsql AS $$
        BEGIN RAISE EXCEPTION 'the record only grows: its rows are not changed or deleted'; END $$`);
  }
}

/** A restore copies both tables as they were; it is of no firm. */
const KEEP_TARGETS = `
  CREATE FUNCTION keep_record_targets() RETURNS trigger LANGUAGE plpgsql AS $$
    BEGIN
      INSERT INTO record_targets (target, happened_at, entry_id)
        SELECT DISTINCT value, NEW.happened_at, NEW.id FROM jsonb_each_text(NEW.target);
      RETURN NULL;
    END $$;
  CREATE TRIGGER keep_targets AFTER INSERT ON record_entries
    FOR EACH ROW WHEN (coalesce(current_setting('app.firm_id', true), '') <> '')
    EXECUTE FUNCTION keep_record_targets()`;

/** Only what was read, and the targets of what is gone. */
const LET_READS_GO = `
  CREATE OR REPLACE FUNCTION refuse_record_change() RETURNS trigger LANGUAGE plpgsql AS $$
    BEGIN
      IF TG_OP = 'DELETE' AND TG_TABLE_NAME = 'record_entries' THEN
        IF OLD.action LIKE 'GET %' OR OLD.action LIKE 'HEAD %' THEN RETURN OLD; END IF;
      ELSIF TG_OP = 'DELETE' AND TG_TABLE_NAME = 'record_targets' THEN
        IF NOT EXISTS (SELECT FROM record_entries WHERE id = OLD.entry_id) THEN RETURN OLD; END IF;
      END IF;
      RAISE EXCEPTION 'the record only grows: its rows are not changed or deleted';
    END $$;
  CREATE TRIGGER only_grows BEFORE UPDATE OR DELETE ON record_targets
    FOR EACH ROW EXECUTE FUNCTION refuse_record_change();
  CREATE TRIGGER never_emptied BEFORE TRUNCATE ON record_targets
    FOR EACH STATEMENT EXECUTE FUNCTION refuse_record_change()`;

/** As the tables' owner, for the app's role may not delete from them; of the transaction's firm. */
const FORGET_READS = `
  CREATE FUNCTION forget_reads(before timestamptz, at_most integer) RETURNS integer
  LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
    DECLARE gone uuid[];
    BEGIN
      gone := array(SELECT id FROM record_entries
        WHERE happened_at < before AND (action LIKE 'GET %' OR action LIKE 'HEAD %')
        ORDER BY happened_at, id LIMIT at_most);
      DELETE FROM record_entries WHERE id = ANY (gone);
      DELETE FROM record_targets WHERE entry_id = ANY (gone);
      RETURN cardinality(gone);
    END $$`;
