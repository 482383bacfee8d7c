import type { MigrationInterface, QueryRunner } from 'typeorm';

/**
 * Whoever shows a secret is told of with their name, so that a request need not read the person; and that a secret was used
 * is written down in one statement, where it was a transaction of four.
 */
export class WhoAsksByName1764000000060 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    // A process of the version before names the columns that it reads, so one more does not disturb it.
    await runner.query('DROP FUNCTION find_shown(text[], text[])');
    await runner.query(findShown('person_name text', 'p.name, ', 'person_name, '));
    await runner.query(TOUCH_SHOWN);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP FUNCTION touch_shown(text, uuid, uuid, timestamptz)');
    await runner.query('DROP FUNCTION find_shown(text[], text[])');
    await runner.query(findShown());
  }
}

/** As migration 0012 made it, with a column more where there is one. */
function findShown(column = '', read = '', into = ''): string {
  const columns = column === '' ? '' : `, ${column}`;
  const unnamed = into === '' ? '' : 'person_name := NULL;';
  return `
  CREATE FUNCTION find_shown(kinds text[], hashes text[])
  RETURNS TABLE (
    place integer, firm_id uuid, credential_id uuid, person_id uuid, role text, client_id uuid,
    scopes text[], last_used_at timestamptz, ends_at timestamptz, pass_id uuid, site_id uuid,
    ended_at timestamptz, site_ids text${columns}
  ) LANGUAGE plpgsql AS $$
  #variable_conflict use_column
  -- What is assigned to it is not needed: an assignment is evaluated without a query of its own.
  DECLARE set text;
  BEGIN
    set := set_config('app.site_ids', '', true);
    FOR asked IN 1 .. cardinality(hashes) LOOP
      set := set_config('app.firm_id', '', true) || set_config('app.secret_hash', hashes[asked], true);
      place := asked; firm_id := NULL; person_id := NULL; pass_id := NULL; site_id := NULL; client_id := NULL;
      scopes := NULL; ended_at := NULL; site_ids := ''; ${unnamed}
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
        SELECT ${read}p.work, p.client_id INTO ${into}role, client_id FROM people p WHERE p.id = person_id;
        IF role IN ('technician', 'client') THEN
          site_ids := reach_of(role, person_id, client_id);
        END IF;
      END IF;
      RETURN NEXT;
    END LOOP;
  END $$`;
}

const TOUCH_SHOWN = `
  CREATE FUNCTION touch_shown(kind text, of_firm uuid, credential uuid, at timestamptz) RETURNS void
  LANGUAGE plpgsql AS $$
  DECLARE set text;
  BEGIN
    set := set_config('app.firm_id', of_firm::text, true) || set_config('app.site_ids', '', true);
    IF kind = 'session' THEN UPDATE sessions SET last_seen_at = at WHERE id = credential;
    ELSIF kind = 'token' THEN UPDATE api_tokens SET last_used_at = at WHERE id = credential;
    ELSE UPDATE pass_sessions SET last_seen_at = at WHERE id = credential;
    END IF;
  END $$`;
