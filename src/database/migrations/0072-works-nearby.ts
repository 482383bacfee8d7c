import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/** What others did near a site's parts: a row is withdrawn once, and else never changed. */
export class WorksNearby1764000000072 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE TABLE works_nearby (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        site_id uuid NOT NULL,
        rooms jsonb NOT NULL,
        "on" date NOT NULL,
        by_whom text NOT NULL,
        note text,
        said_by text NOT NULL,
        said_by_kind text NOT NULL,
        recorded_at timestamptz NOT NULL,
        withdrawn_by text,
        withdrawn_at timestamptz,
        withdrawn_because text,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id, site_id) REFERENCES sites (firm_id, id)
      );
      CREATE INDEX ON works_nearby (firm_id, site_id, "on", id);
      CREATE TRIGGER only_grows BEFORE DELETE ON works_nearby
        FOR EACH ROW EXECUTE FUNCTION refuse_change();
      CREATE TRIGGER only_withdrawn BEFORE UPDATE ON works_nearby
        FOR EACH ROW WHEN (
          to_jsonb(OLD) - '{withdrawn_by,withdrawn_at,withdrawn_because}'::text[]
            IS DISTINCT FROM to_jsonb(NEW) - '{withdrawn_by,withdrawn_at,withdrawn_because}'::text[]
          OR OLD.withdrawn_at IS NOT NULL
            AND (NEW.withdrawn_at, NEW.withdrawn_because) IS DISTINCT FROM (OLD.withdrawn_at, OLD.withdrawn_because))
        EXECUTE FUNCTION refuse_change()`);
    await keepFirmsApart(runner, ['works_nearby']);
    await runner.query(`
      CREATE POLICY reach ON works_nearby AS RESTRICTIVE
        USING ((SELECT reaches_all()) OR site_id = ANY (SELECT reached_sites()))`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE works_nearby');
  }
}
