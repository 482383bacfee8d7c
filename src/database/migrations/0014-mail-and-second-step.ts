import type { MigrationInterface, QueryRunner } from 'typeorm';
import { keepFirmsApart } from './row-level-security.js';

/** Links that are mailed, the outbox they wait in, and the second step of signing in. */
export class MailAndSecondStep1764000000014 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      ALTER TABLE accounts
        ADD COLUMN totp_secret text,
        ADD COLUMN totp_confirmed_at timestamptz,
        ADD COLUMN totp_last_step integer;

      CREATE TABLE recovery_codes (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        person_id uuid NOT NULL,
        code_hash text NOT NULL,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id, person_id) REFERENCES people (firm_id, id)
      );
      CREATE INDEX ON recovery_codes (firm_id, person_id);

      CREATE TABLE mailed_links (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        secret_hash text NOT NULL,
        person_id uuid NOT NULL,
        ends_at timestamptz NOT NULL,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id, person_id) REFERENCES people (firm_id, id)
      );
      CREATE UNIQUE INDEX ON mailed_links (secret_hash);
      CREATE INDEX ON mailed_links (firm_id, person_id);

      CREATE TABLE mails (
        firm_id uuid NOT NULL DEFAULT current_setting('app.firm_id')::uuid,
        id uuid NOT NULL,
        recipient text NOT NULL,
        subject text NOT NULL,
        text text,
        created_at timestamptz NOT NULL,
        sent_at timestamptz,
        failure text,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id) REFERENCES firms (firm_id)
      );
      CREATE INDEX ON mails (firm_id, created_at, id)`);
    await keepFirmsApart(runner, ['recovery_codes', 'mailed_links', 'mails']);
    await runner.query(`
      ALTER POLICY own_firm ON mailed_links
        USING (firm_id = nullif(current_setting('app.firm_id', true), '')::uuid);
      CREATE POLICY shown ON mailed_links FOR SELECT
        USING (secret_hash = current_setting('app.secret_hash', true))`);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      DROP TABLE mails; DROP TABLE mailed_links; DROP TABLE recovery_codes;
      ALTER TABLE accounts
        DROP COLUMN totp_secret, DROP COLUMN totp_confirmed_at, DROP COLUMN totp_last_step`);
  }
}
