import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/** Which process works out where a ticket's trouble lies, so that no other does the same. */
export class LocationClaims1764000000142 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE TABLE location_claims (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        fingerprint text NOT NULL,
        claimed_until timestamptz NOT NULL,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id, id) REFERENCES tickets (firm_id, id)
      )`);
    await keepFirmsApart(runner, ['location_claims']);
    await runner.query(`
      CREATE POLICY reach ON location_claims AS RESTRICTIVE
        USING ((SELECT reaches_all()) OR id IN (SELECT id FROM tickets))`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE location_claims');
  }
}
