import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/** What was promised to whom, for which sites; and calendars of closed times that contracts go by. */
export class Contracts1764000000080 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      CREATE TABLE contracts (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        title text NOT NULL,
        client_id uuid NOT NULL,
        "from" date NOT NULL,
        until date NOT NULL,
        kind text NOT NULL,
        visits_per_year integer NOT NULL,
        visit_rhythm jsonb,
        visit_hours jsonb NOT NULL,
        call_outs_per_year integer,
        fee_minor double precision NOT NULL,
        currency text NOT NULL,
        promises jsonb NOT NULL,
        coverage jsonb NOT NULL,
        pauses_for_parts boolean NOT NULL,
        exclusions text,
        notice_days integer,
        renewed_from uuid,
        version integer NOT NULL,
        created_at timestamptz NOT NULL,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id, client_id) REFERENCES clients (firm_id, id),
        FOREIGN KEY (firm_id, renewed_from) REFERENCES contracts (firm_id, id)
      );
      CREATE INDEX ON contracts (firm_id, "from", id);
      CREATE INDEX ON contracts (firm_id, client_id);
      CREATE UNIQUE INDEX ON contracts (firm_id, renewed_from);
      CREATE TABLE contract_sites (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        contract_id uuid NOT NULL,
        site_id uuid NOT NULL,
        PRIMARY KEY (firm_id, contract_id, site_id),
        FOREIGN KEY (firm_id, contract_id) REFERENCES contracts (firm_id, id),
        FOREIGN KEY (firm_id, site_id) REFERENCES sites (firm_id, id)
      );
      CREATE INDEX ON contract_sites (firm_id, site_id);
      CREATE TABLE closed_calendars (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        name text NOT NULL,
        times jsonb NOT NULL,
        version integer NOT NULL,
        created_at timestamptz NOT NULL,
        PRIMARY KEY (firm_id, id)
      );
      CREATE INDEX ON closed_calendars (firm_id, name, id)`);
    await keepFirmsApart(runner, ['contracts', 'contract_sites', 'closed_calendars']);
    await runner.query(`
      CREATE POLICY reach ON contract_sites AS RESTRICTIVE
        USING ((SELECT reaches_all()) OR site_id = ANY (SELECT reached_sites()));
      CREATE POLICY reach ON contracts AS RESTRICTIVE
        USING ((SELECT reaches_all()) OR id IN (SELECT contract_id FROM contract_sites))`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      DROP TABLE closed_calendars;
      DROP TABLE contract_sites CASCADE;
      DROP TABLE contracts`);
  }
}
