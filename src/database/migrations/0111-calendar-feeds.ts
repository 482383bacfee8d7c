import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/** Secret links by which calendar programs read visits. Found by the secret's hash alone, as passes are. */
export class CalendarFeeds1764000000111 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE TABLE calendar_feeds (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        secret_hash text NOT NULL,
        technician_id uuid,
        site_id uuid,
        created_at timestamptz NOT NULL,
        ended_at timestamptz,
        PRIMARY KEY (firm_id, id),
        CHECK ((technician_id IS NULL) <> (site_id IS NULL)),
        FOREIGN KEY (firm_id, technician_id) REFERENCES people (firm_id, id),
        FOREIGN KEY (firm_id, site_id) REFERENCES sites (firm_id, id)
      );
      CREATE UNIQUE INDEX ON calendar_feeds (secret_hash)`);
    await keepFirmsApart(runner, ['calendar_feeds']);
    await runner.query(`
      ALTER POLICY own_firm ON calendar_feeds
        USING (firm_id = nullif(current_setting('app.firm_id', true), '')::uuid);
      CREATE POLICY shown ON calendar_feeds FOR SELECT
        USING (secret_hash = current_setting('app.secret_hash', true))`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE calendar_feeds');
  }
}
