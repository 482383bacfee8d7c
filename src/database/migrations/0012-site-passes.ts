import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/** Site passes, what is signed with them, and the one way in for every kind of credential. */
export class SitePasses1764000000012 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createPasses(runner);
    await createSignatures(runner);
    await keepFirmsApart(runner, ['site_passes', 'pass_sessions', 'signatures']);
    await runner.query(`
      ALTER POLICY own_firm ON site_passes
        USING (firm_id = nullif(current_setting('app.firm_id', true), '')::uuid);
      ALTER POLICY own_firm ON pass_sessions
        USING (firm_id = nullif(current_setting('app.firm_id', true), '')::uuid);
      CREATE POLICY shown ON site_passes FOR SELECT
        USING (secret_hash = current_setting('app.secret_hash', true));
      CREATE POLICY shown ON pass_sessions FOR SELECT
        USING (secret_hash = current_setting('app.secret_hash', true));
      CREATE POLICY reach ON signatures AS RESTRICTIVE
        USING ((SELECT reaches_all()) OR visit_id IN (SELECT id FROM visits));
      CREATE TRIGGER only_grows BEFORE UPDATE OR DELETE ON signatures
        FOR EACH ROW EXECUTE FUNCTION refuse_change()`);
    await runner.query(FIND_SHOWN);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      DROP FUNCTION find_shown(text[], text[]);
      DROP TABLE signatures; DROP TABLE pass_sessions; DROP TABLE site_passes`);
  }
}

async function createPasses(runner: QueryRunner): Promise<void> {
  await runner.query(`
    CREATE TABLE site_passes (
      firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
      id uuid NOT NULL,
      secret_hash text NOT NULL,
      site_id uuid NOT NULL,
      created_at timestamptz NOT NULL,
      ended_at timestamptz,
      PRIMARY KEY (firm_id, id),
      FOREIGN KEY (firm_id, site_id) REFERENCES sites (firm_id, id)
    );
    CREATE UNIQUE INDEX ON site_passes (secret_hash);
    CREATE INDEX ON site_passes (firm_id, site_id);

    CREATE TABLE pass_sessions (
      firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
      id uuid NOT NULL,
      secret_hash text NOT NULL,
      pass_id uuid NOT NULL,
      last_seen_at timestamptz NOT NULL,
      ends_at timestamptz NOT NULL,
      PRIMARY KEY (firm_id, id),
      FOREIGN KEY (firm_id, pass_id) REFERENCES site_passes (firm_id, id)
    );
    CREATE UNIQUE INDEX ON pass_sessions (secret_hash);
    CREATE INDEX ON pass_sessions (firm_id, pass_id)`);
}

async function createSignatures(runner: QueryRunner): Promise<void> {
  await runner.query(`
    CREATE TABLE signatures (
      firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
      id uuid NOT NULL,
      visit_id uuid NOT NULL,
      visit_version integer NOT NULL,
      name text NOT NULL,
      remark text,
      signed_at timestamptz NOT NULL,
      pass_id uuid,
      person_id uuid,
      PRIMARY KEY (firm_id, id),
      CHECK ((pass_id IS NULL) <> (person_id IS NULL)),
      FOREIGN KEY (firm_id, visit_id) REFERENCES visits (firm_id, id),
      FOREIGN KEY (firm_id, pass_id) REFERENCES site_passes (firm_id, id),
      FOREIGN KEY (firm_id, person_id) REFERENCES people (firm_id, id)
    );
    CREATE INDEX ON signatures (firm_id, visit_id)`);
}

/**
 * Finds who shows secrets, each by its hash, and how much of their firm they reach (migration 0011):
 * for all requests of a moment at once, with plans that are kept. Answers with the places, from 1,
 * of those that were found.
 */
const FIND_SHOWN = `
  CREATE FUNCTION find_shown(kinds text[], hashes text[])
  RETURNS TABLE (
    place integer, firm_id uuid, credential_id uuid, person_id uuid, role text, client_id uuid,
    scopes text[], last_used_at timestamptz, ends_at timestamptz, pass_id uuid, site_id uuid,
    ended_at timestamptz, site_ids text
  ) LANGUAGE plpgsql AS $$
  #variable_conflict use_column
  -- What is assigned to it is not needed: an assignment is evaluated without a query of its own.
  DECLARE set text;
  BEGIN
    set := set_config('app.site_ids', '', true);
    FOR asked IN 1 .. cardinality(hashes) LOOP
      set := set_config('app.firm_id', '', true) || set_config('app.secret_hash', hashes[asked], true);
      place := asked; firm_id := NULL; person_id := NULL; pass_id := NULL; site_id := NULL; client_id := NULL;
      scopes := NULL; ended_at := NULL; site_ids := '';
      IF kinds[asked] = 'session' THEN
        SELECT s.firm_id, s.id, s.person_id, s.last_seen_at, s.ends_at
          INTO firm_id, credential_id, person_id, last_used_at, ends_at
          FROM sessions s WHERE s.secret_hash = hashes[asked];
      ELSIF kinds[asked] = 'token' THEN
        SELECT t.firm_id, t.id, t.person_id, t.scopes, t.last_used_at, t.ends_at
          INTO firm_id, credential_id, person_id, scopes, last_used_at, ends_at
          FROM api_tokens t WHERE t.secret_hash = hashes[asked];
      ELSE
        SELECT p.firm_id, p.id, p.pass_id, p.last_seen_at, p.ends_at
          INTO firm_id, credential_id, pass_id, last_used_at, ends_at
          FROM pass_sessions p WHERE p.secret_hash = hashes[asked];
      END IF;
      CONTINUE WHEN firm_id IS NULL;
      set := set_config('app.firm_id', firm_id::text, true);
      IF pass_id IS NOT NULL THEN
        role := 'pass';
        SELECT p.site_id, p.ended_at INTO site_id, ended_at FROM site_passes p WHERE p.id = pass_id;
        site_ids := array[site_id]::text;
      ELSE
        SELECT p.work, p.client_id INTO role, client_id FROM people p WHERE p.id = person_id;
        IF role IN ('technician', 'client') THEN
          site_ids := reach_of(role, person_id, client_id);
        END IF;
      END IF;
      RETURN NEXT;
    END LOOP;
  END $$`;
