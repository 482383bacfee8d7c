import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/** Sign-ins, sessions and API tokens. */
export class Access1764000000010 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await acrossFirms(
      runner,
      `ALTER TABLE people ADD COLUMN client_id uuid;
       ALTER TABLE people ADD FOREIGN KEY (firm_id, client_id) REFERENCES clients (firm_id, id);
       ALTER TABLE people ADD CHECK ((work = 'client') = (client_id IS NOT NULL));
       CREATE INDEX ON people (firm_id, client_id)`,
    );
    await createAccounts(runner);
    await createCredentials(runner);
    await keepFirmsApart(runner, ['accounts', 'sessions', 'api_tokens']);
    await findByWhatIsShown(runner);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE api_tokens; DROP TABLE sessions; DROP TABLE accounts');
    await acrossFirms(
      runner,
      `DELETE FROM people WHERE work = 'client';
       ALTER TABLE people DROP COLUMN client_id`,
    );
  }
}

/** A change to rows of all firms at once: row-level security binds the tables' owner too. */
async function acrossFirms(runner: QueryRunner, sql: string): Promise<void> {
  await runner.query(`
    ALTER TABLE people NO FORCE ROW LEVEL SECURITY;
    ALTER TABLE clients NO FORCE ROW LEVEL SECURITY;
    ${sql};
    ALTER TABLE people FORCE ROW LEVEL SECURITY;
    ALTER TABLE clients FORCE ROW LEVEL SECURITY`);
}

/** A person's sign-in; its id is the person's. */
async function createAccounts(runner: QueryRunner): Promise<void> {
  await runner.query(`
    CREATE TABLE accounts (
      firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
      id uuid NOT NULL,
      email text NOT NULL,
      password_hash text,
      password_changed_at timestamptz,
      last_sign_in_at timestamptz,
      ended_at timestamptz,
      created_at timestamptz NOT NULL,
      PRIMARY KEY (firm_id, id),
      UNIQUE (firm_id, email),
      FOREIGN KEY (firm_id, id) REFERENCES people (firm_id, id)
    );
    CREATE INDEX ON accounts (email)`);
}

async function createCredentials(runner: QueryRunner): Promise<void> {
  await runner.query(`
    CREATE TABLE sessions (
      firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
      id uuid NOT NULL,
      secret_hash text NOT NULL,
      person_id uuid NOT NULL,
      created_at timestamptz NOT NULL,
      last_seen_at timestamptz NOT NULL,
      ends_at timestamptz NOT NULL,
      address text NOT NULL,
      user_agent text NOT NULL,
      PRIMARY KEY (firm_id, id),
      FOREIGN KEY (firm_id, person_id) REFERENCES people (firm_id, id)
    );
    CREATE UNIQUE INDEX ON sessions (secret_hash);
    CREATE INDEX ON sessions (firm_id, person_id);

    CREATE TABLE api_tokens (
      firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
      id uuid NOT NULL,
      secret_hash text NOT NULL,
      person_id uuid NOT NULL,
      name text NOT NULL,
      scopes text[] NOT NULL,
      created_at timestamptz NOT NULL,
      last_used_at timestamptz,
      ends_at timestamptz,
      PRIMARY KEY (firm_id, id),
      FOREIGN KEY (firm_id, person_id) REFERENCES people (firm_id, id)
    );
    CREATE UNIQUE INDEX ON api_tokens (secret_hash);
    CREATE INDEX ON api_tokens (firm_id, person_id)`);
}

/**
 * Whose firm it is must be found before a firm is set: by the hash of the secret that was shown, or
 * by the e-mail of a sign-in, and then that row alone.
 */
async function findByWhatIsShown(runner: QueryRunner): Promise<void> {
  for (const table of ['accounts', 'sessions', 'api_tokens']) {
    await runner.query(`
      ALTER POLICY own_firm ON ${table}
        USING (firm_id = nullif(current_setting('app.firm_id', true), '')::uuid)`);
  }
  await runner.query(`
    CREATE POLICY shown ON sessions FOR SELECT
      USING (secret_hash = current_setting('app.secret_hash', true));
    CREATE POLICY shown ON api_tokens FOR SELECT
      USING (secret_hash = current_setting('app.secret_hash', true));
    CREATE POLICY signing_in ON accounts FOR SELECT
      USING (email = current_setting('app.sign_in_email', true))`);
}
