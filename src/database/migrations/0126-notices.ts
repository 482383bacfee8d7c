import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/** Who is told of what. A wish is found by the way out of its mails, too, as passes are by their secret. */
export class Notices1764000000126 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE TABLE notice_wishes (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        person_id uuid NOT NULL,
        way text NOT NULL,
        kinds text[] NOT NULL,
        site_id uuid,
        language text NOT NULL,
        url text,
        sealed_secret text NOT NULL,
        secret_hash text NOT NULL,
        created_at timestamptz NOT NULL,
        ended_at timestamptz,
        PRIMARY KEY (firm_id, id),
        CHECK ((way = 'webhook') = (url IS NOT NULL)),
        FOREIGN KEY (firm_id, person_id) REFERENCES people (firm_id, id),
        FOREIGN KEY (firm_id, site_id) REFERENCES sites (firm_id, id)
      );
      CREATE UNIQUE INDEX ON notice_wishes (secret_hash);
      CREATE INDEX ON notice_wishes (firm_id, person_id);
      CREATE TABLE notices (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        wish_id uuid NOT NULL,
        happening text NOT NULL,
        facts jsonb NOT NULL,
        created_at timestamptz NOT NULL,
        sent_at timestamptz,
        tries integer NOT NULL,
        failure text,
        PRIMARY KEY (firm_id, id),
        CONSTRAINT notices_once UNIQUE (firm_id, wish_id, happening),
        FOREIGN KEY (firm_id, wish_id) REFERENCES notice_wishes (firm_id, id) ON DELETE CASCADE
      );
      CREATE INDEX ON notices (firm_id, created_at);
      ALTER TABLE mails ADD COLUMN way_out text`);
    await keepFirmsApart(runner, ['notice_wishes', 'notices']);
    await runner.query(`
      ALTER POLICY own_firm ON notice_wishes
        USING (firm_id = nullif(current_setting('app.firm_id', true), '')::uuid);
      CREATE POLICY shown ON notice_wishes FOR SELECT
        USING (secret_hash = current_setting('app.secret_hash', true));
      CREATE POLICY reach ON notice_wishes AS RESTRICTIVE
        USING (site_id IS NULL OR (SELECT reaches_all()) OR site_id = ANY (SELECT reached_sites()))`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      ALTER TABLE mails DROP COLUMN way_out;
      DROP TABLE notices;
      DROP TABLE notice_wishes`);
  }
}
