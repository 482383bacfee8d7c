import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

const FIXED = [
  'firm_id, id, site_id, ticket_id, visit_id, format, byte_count',
  'caption, taken_by, taken_at, recorded_at',
].join(', ');
/** A name may give way to another word (anonymising). */
const WITHDRAWAL = 'withdrawn_at, withdrawn_because';

const of = (row: string, columns: string) =>
  `(${columns
    .split(', ')
    .map((column) => `${row}.${column}`)
    .join(', ')})`;

/** Photos of tickets and visits: a picture goes when it is withdrawn or after its time, and what is said of it stays. */
export class Photos1764000000133 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE TABLE photos (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        site_id uuid NOT NULL,
        ticket_id uuid,
        visit_id uuid,
        format text NOT NULL,
        byte_count integer NOT NULL,
        caption text,
        taken_by text NOT NULL,
        taken_at timestamptz NOT NULL,
        recorded_at timestamptz NOT NULL,
        image bytea,
        withdrawn_by text,
        withdrawn_at timestamptz,
        withdrawn_because text,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id, site_id) REFERENCES sites (firm_id, id),
        FOREIGN KEY (firm_id, ticket_id) REFERENCES tickets (firm_id, id),
        FOREIGN KEY (firm_id, visit_id) REFERENCES visits (firm_id, id),
        CHECK (num_nonnulls(ticket_id, visit_id) = 1)
      );
      ALTER TABLE photos ALTER COLUMN image SET STORAGE EXTERNAL;
      CREATE INDEX ON photos (firm_id, ticket_id, taken_at, id);
      CREATE INDEX ON photos (firm_id, visit_id, taken_at, id);
      CREATE INDEX ON photos (firm_id, recorded_at) WHERE image IS NOT NULL;
      CREATE TRIGGER only_grows BEFORE DELETE ON photos
        FOR EACH ROW EXECUTE FUNCTION refuse_change();
      CREATE TRIGGER only_goes BEFORE UPDATE ON photos
        FOR EACH ROW WHEN (
          ${of('OLD', FIXED)} IS DISTINCT FROM ${of('NEW', FIXED)}
          OR NEW.image IS NOT NULL AND NEW.image IS DISTINCT FROM OLD.image
          OR OLD.withdrawn_at IS NOT NULL AND ${of('OLD', WITHDRAWAL)} IS DISTINCT FROM ${of('NEW', WITHDRAWAL)})
        EXECUTE FUNCTION refuse_change()`);
    await keepFirmsApart(runner, ['photos']);
    await runner.query(`
      CREATE POLICY reach ON photos AS RESTRICTIVE
        USING ((SELECT reaches_all()) OR site_id = ANY (SELECT reached_sites()))`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE photos');
  }
}
