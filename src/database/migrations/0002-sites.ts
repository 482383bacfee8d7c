import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

export class Sites1764000000002 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createSites(runner);
    await createAsBuiltRecord(runner);
    await keepFirmsApart(runner, [
      'clients',
      'sites',
      'as_built_versions',
      'as_built_trunks',
      'as_built_nodes',
    ]);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      DROP TABLE as_built_nodes; DROP TABLE as_built_trunks; DROP TABLE as_built_versions;
      DROP TABLE sites; DROP TABLE clients`);
  }
}

async function createSites(runner: QueryRunner): Promise<void> {
  await runner.query(`
      CREATE TABLE clients (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        name text NOT NULL,
        contact_name text,
        phone text,
        email text,
        version integer NOT NULL,
        created_at timestamptz NOT NULL,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id) REFERENCES firms (firm_id)
      );

      CREATE TABLE sites (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        client_id uuid NOT NULL,
        name text NOT NULL,
        address text,
        zone text NOT NULL,
        latitude double precision,
        longitude double precision,
        safety_notes text,
        serves_emergency_calls boolean NOT NULL,
        version integer NOT NULL,
        as_built_version integer NOT NULL,
        created_at timestamptz NOT NULL,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id, client_id) REFERENCES clients (firm_id, id)
      );
      CREATE INDEX ON sites (firm_id, client_id)`);
}

async function createAsBuiltRecord(runner: QueryRunner): Promise<void> {
  await runner.query(`
      CREATE TABLE as_built_versions (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        site_id uuid NOT NULL,
        number integer NOT NULL,
        changed_by text NOT NULL,
        changed_at timestamptz NOT NULL,
        reason text NOT NULL,
        model text,
        serial text,
        place text,
        installed_on date,
        supply_volts double precision,
        PRIMARY KEY (firm_id, site_id, number),
        FOREIGN KEY (firm_id, site_id) REFERENCES sites (firm_id, id)
      );

      CREATE TABLE as_built_trunks (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        site_id uuid NOT NULL,
        trunk text NOT NULL,
        since_version integer NOT NULL,
        until_version integer,
        name text NOT NULL,
        port text,
        PRIMARY KEY (firm_id, site_id, trunk, since_version),
        FOREIGN KEY (firm_id, site_id, since_version)
          REFERENCES as_built_versions (firm_id, site_id, number)
      );
      CREATE UNIQUE INDEX ON as_built_trunks (firm_id, site_id, trunk) WHERE until_version IS NULL;

      CREATE TABLE as_built_nodes (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        site_id uuid NOT NULL,
        trunk text NOT NULL,
        node text NOT NULL,
        since_version integer NOT NULL,
        until_version integer,
        position integer NOT NULL,
        kind text NOT NULL,
        fed_from text,
        cable_type text,
        cable_metres double precision NOT NULL,
        room text,
        block text,
        floor text,
        unit_model text,
        unit_serial text,
        unit_installed_on date,
        PRIMARY KEY (firm_id, site_id, trunk, node, since_version),
        FOREIGN KEY (firm_id, site_id, since_version)
          REFERENCES as_built_versions (firm_id, site_id, number)
      );
      CREATE UNIQUE INDEX ON as_built_nodes (firm_id, site_id, trunk, node)
        WHERE until_version IS NULL`);
}
