import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/** What walk tests on visits showed to work, beside any ticket: rows that are never changed. */
export class ProvenPoints1764000000031 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE TABLE proven_points (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        walk_test_id uuid NOT NULL,
        site_id uuid NOT NULL,
        visit_id uuid NOT NULL,
        trunk text NOT NULL,
        node text NOT NULL,
        function text NOT NULL,
        tested_at timestamptz NOT NULL,
        tested_by text NOT NULL,
        recorded_at timestamptz NOT NULL,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id, site_id) REFERENCES sites (firm_id, id),
        FOREIGN KEY (firm_id, visit_id) REFERENCES visits (firm_id, id)
      );
      CREATE INDEX ON proven_points (firm_id, site_id, tested_at);
      CREATE INDEX ON proven_points (firm_id, visit_id);
      CREATE TRIGGER only_grows BEFORE UPDATE OR DELETE ON proven_points
        FOR EACH ROW EXECUTE FUNCTION refuse_change()`);
    await keepFirmsApart(runner, ['proven_points']);
    await runner.query(`
      CREATE POLICY reach ON proven_points AS RESTRICTIVE
        USING ((SELECT reaches_all()) OR site_id = ANY (SELECT reached_sites()))`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE proven_points');
  }
}
