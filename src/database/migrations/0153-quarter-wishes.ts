import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/** What is wanted of promised visits in a plan of a quarter, for everybody who plans it. */
export class QuarterWishes1764000000153 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE TABLE quarter_wishes (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        quarter date NOT NULL,
        contract_id uuid NOT NULL,
        site_id uuid NOT NULL,
        year integer NOT NULL,
        ordinal integer NOT NULL,
        "on" date,
        not_on jsonb NOT NULL,
        pinned_to uuid,
        not_by jsonb NOT NULL,
        skills jsonb NOT NULL,
        is_left boolean NOT NULL,
        reason text,
        changed_by_id uuid NOT NULL,
        changed_at timestamptz NOT NULL,
        version integer NOT NULL,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id, contract_id) REFERENCES contracts (firm_id, id),
        FOREIGN KEY (firm_id, site_id) REFERENCES sites (firm_id, id),
        FOREIGN KEY (firm_id, changed_by_id) REFERENCES people (firm_id, id)
      );
      CREATE UNIQUE INDEX quarter_wishes_visit_idx ON quarter_wishes (firm_id, quarter, contract_id, site_id, year, ordinal)`);
    await keepFirmsApart(runner, ['quarter_wishes']);
    // As the policy of every table of a site: some roles see their own alone.
    await runner.query(`
      CREATE POLICY reach ON quarter_wishes AS RESTRICTIVE
        USING ((SELECT reaches_all()) OR site_id = ANY (SELECT reached_sites()))`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE quarter_wishes');
  }
}
